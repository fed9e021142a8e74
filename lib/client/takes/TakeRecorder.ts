import type { SongGrid } from "@/lib/client/axis/songGrid";
import { MAX_TAKE_SEC, TAKE_MEDIA_TYPE } from "@/lib/contracts/takes";
import { encodeWav } from "@/lib/synth/encodeWav";
import type { Cents, Seconds } from "@/lib/units/quantities";
import type { Sounding } from "../player/Playback";
import type { Player } from "../player/Player";
import { untilInMemory } from "../player/untilInMemory";
import { Watched } from "../watched/Watched";
import { captureFault } from "./captureFaults";
import { levelCaution } from "./inputLevel";
import { lastFrameOf, layTake, TAIL_SEC } from "./layTake";
import { TakeCapture } from "./TakeCapture";
import type { TakeInput } from "./TakeInput";
import { RECORDER_OFF, type RecorderState, type TakeWish } from "./takeStates";
import type { UnsentTake } from "./UnsentTakes";

/** What came of a recording. */
export interface Recorded {
  take: UnsentTake;
  /** What is to be said of it besides that it is kept; null where there is nothing. */
  caution: string | null;
}

/** Less than this was played over is no take. */
const SHORTEST_SEC: Seconds = 0.4;
/** Without beats to count in by, so much of the record leads in. */
const LEAD_IN_SEC: Seconds = 2;
/** The stream may take so long to bring the last frames; then what is there is kept. */
const LAST_FRAMES_WITHIN_MS = 1_500;
/** The record is where it was said to be, or it was sent elsewhere. */
const ELSEWHERE_SEC: Seconds = 0.25;

/**
 * Records takes: opens the device, plays the stretch once at the speed in use, counted in, and lays what came in onto the
 * record. One at a time. What it made goes to `keep`, what it has to say to `say`.
 */
export class TakeRecorder extends Watched<RecorderState> {
  private scope: AbortController | null = null;
  private capture: TakeCapture | null = null;
  private sounding: Sounding | null = null;
  private shiftCents: Cents = 0;
  private stops: (() => void)[] = [];
  private finishing: ReturnType<typeof setTimeout> | undefined;
  /** How far the record had come when the recording was stopped. */
  private endedSec: Seconds | null = null;
  private endWords: string | null = null;
  private levelFrom = 0;

  constructor(
    private readonly player: Player,
    private readonly input: TakeInput,
    private readonly of: { songId: string; userId: string },
    private readonly events: {
      keep(recorded: Recorded): void;
      say(words: string): void;
    },
  ) {
    super(RECORDER_OFF);
  }

  get isOn(): boolean {
    return this.scope !== null;
  }

  /** Begins a take. To be called from a press. @param grid by which is counted in; null where no beats are known */
  async start(wish: TakeWish, grid: SongGrid | null): Promise<void> {
    if (this.scope) return;
    const { player } = this;
    const speed = player.now().speed;
    if ((wish.endSec - wish.startSec) / speed > MAX_TAKE_SEC - 2) {
      this.events.say(
        `A take runs for ${MAX_TAKE_SEC / 60} minutes at most. Nothing was recorded. Select a shorter stretch.`,
      );
      return;
    }
    const scope = new AbortController();
    this.scope = scope;
    this.endedSec = null;
    this.endWords = null;
    this.sounding = null;
    this.tell({ ...RECORDER_OFF, step: "asking", wish });
    try {
      const chain = player.openOutput();
      void chain.resume();
      this.capture = await TakeCapture.open(this.input.now().deviceId, chain.beside, scope.signal, {
        came: () => this.onChunk(),
        gone: () =>
          this.end(
            "The microphone or line went away. What was played until then is kept as a take; plug it in to record again.",
          ),
      });
      this.tell({ step: "preparing", deviceName: this.capture.device.name });
      // It is played to the sample only from memory; where it never comes there, as it is.
      await untilInMemory(player, scope.signal);
      await this.begin(wish, grid, scope.signal);
    } catch (thrown) {
      if (scope.signal.aborted) return;
      this.leave();
      this.events.say(captureFault(thrown, isSecureContext, "record"));
    }
  }

  /** Ends the take; what was played is kept. */
  stop(): void {
    if (this.now().step === "recording") this.end(null);
    else this.cancel();
  }

  /** Drops the take. @returns whether one was being recorded */
  cancel(): boolean {
    if (!this.scope) return false;
    this.leave();
    this.events.say("The take was dropped: nothing of it is kept.");
    return true;
  }

  /** Ends at once, since the page is being left: what was played is kept as far as it has come. */
  stopNow(): void {
    const { step, wish } = this.now();
    if (wish && step === "recording") this.endedSec = Math.min(wish.endSec, this.player.timeSec);
    if (this.endedSec !== null) this.finish();
    else if (this.scope) this.leave();
  }

  close(): void {
    this.stopNow();
    this.leaveWatchers();
  }

  /** By what a take is moved back: what was measured for the device, else what the browser tells. */
  private get delaySec(): Seconds {
    return this.input.measuredSec ?? this.capture?.toldDelaySec ?? 0;
  }

  private async begin(wish: TakeWish, grid: SongGrid | null, signal: AbortSignal): Promise<void> {
    const { player } = this;
    const { listening, memory, shiftCents } = player.now();
    const isCounted = grid !== null && memory.kind === "ready";
    this.shiftCents = shiftCents;
    this.tell({ step: "countingIn" });
    await player.alone.play({
      fromSec: isCounted ? wish.startSec : Math.max(0, wish.startSec - LEAD_IN_SEC),
      speed: null,
      loop: null,
      countInBars: isCounted ? Math.max(1, listening.countInBars) : 0,
      record: "asListened",
    });
    // Dropped meanwhile, and perhaps another begun.
    if (signal.aborted) return;
    this.stops = [player.onTime(() => this.follow()), player.watch(() => this.onPlayer())];
    this.follow();
  }

  /** Looks at where the record is: on every frame, and with every chunk where frames stop, as in a hidden tab. */
  private follow(): void {
    const { step, wish } = this.now();
    if (!wish || (step !== "countingIn" && step !== "recording") || this.stops.length === 0) return;
    const { player } = this;
    if (!player.isRunning) return;
    const sounding = player.sounding();
    this.sounding ??= sounding;
    const told = this.sounding.sec + (sounding.atSec - this.sounding.atSec) * this.sounding.speed;
    if (sounding.speed !== this.sounding.speed) {
      this.end("The speed was changed, which ended the take. What was played until then is kept.");
      return;
    }
    if (Math.abs(told - sounding.sec) > ELSEWHERE_SEC) {
      this.end(
        "The record was sent elsewhere, which ended the take. What was played until then is kept.",
        told,
      );
      return;
    }
    const heardSec = player.timeSec;
    if (step === "countingIn" && heardSec >= wish.startSec) this.tell({ step: "recording" });
    if (heardSec >= wish.endSec + TAIL_SEC * this.sounding.speed) this.end(null, wish.endSec);
  }

  private onPlayer(): void {
    const { isPlaying, isOnNotes, pass, fault } = this.player.now();
    if (!this.scope || this.endedSec !== null || this.stops.length === 0) return;
    if (fault !== null)
      this.end("The record stopped, which ended the take. What was played until then is kept.");
    else if (isOnNotes || pass === null)
      this.end("Something else was played, which ended the take. What was played until then is kept.");
    else if (!isPlaying) this.end(null);
  }

  private onChunk(): void {
    const { capture } = this;
    if (!capture) return;
    this.levelFrom = Math.max(capture.sound.lastPeak, this.levelFrom * 0.7);
    if (Math.abs(this.levelFrom - this.now().level) > 0.01) this.tell({ level: this.levelFrom });
    if (this.endedSec !== null) this.finishWhenWhole();
    else this.follow();
  }

  /** @param words why it ended, where that was not the person's own act @param atSec of the record; where it is, unless given */
  private end(words: string | null, atSec?: Seconds): void {
    const { wish, step } = this.now();
    if (!wish || this.endedSec !== null) return;
    if (step !== "recording") {
      this.leave();
      this.events.say(
        words === null
          ? "The take was stopped before it began: nothing was recorded."
          : `${words.split(".", 1)[0]}. Nothing had been played yet, so nothing was kept.`,
      );
      return;
    }
    this.endedSec = Math.min(wish.endSec, atSec ?? this.player.timeSec);
    this.endWords = words;
    this.unfollow();
    this.tell({ step: "finishing" });
    this.finishing = setTimeout(() => this.finish(), LAST_FRAMES_WITHIN_MS);
    this.player.alone.leave();
    this.finishWhenWhole();
  }

  /** What was played last comes in later than the record went out. */
  private finishWhenWhole(): void {
    const { capture, sounding, endedSec } = this;
    if (!capture || !sounding || endedSec === null || this.now().step !== "finishing") return;
    const { sampleRate: rateHz } = this.context;
    const last = lastFrameOf(sounding, { endSec: endedSec, delaySec: this.delaySec, rateHz });
    if (capture.sound.endFrame >= last) this.finish();
  }

  private get context(): AudioContext {
    return this.player.openOutput().context;
  }

  private finish(): void {
    const { capture, sounding, endedSec: endSec } = this;
    const { wish } = this.now();
    if (!capture || !sounding || !wish || endSec === null) {
      this.leave();
      return;
    }
    const { sound } = capture;
    const { startSec, partId } = wish;
    const rateHz = this.context.sampleRate;
    const delaySec = this.delaySec;
    const { startFrame, endFrame } = sound;
    const laid =
      startFrame === null || endSec - startSec < SHORTEST_SEC
        ? null
        : layTake({
            ...{ sounding, startSec, endSec, delaySec, rateHz },
            captured: { startFrame, endFrame },
          });
    const { shiftCents, endWords } = this;
    this.leave();
    if (!laid) {
      this.events.say("Hardly anything was played, so nothing was kept. Record again when you are ready.");
      return;
    }
    const channels = sound.cut(laid.fromFrame, laid.toFrame);
    const about = {
      ownerId: this.of.userId,
      ...{ partId, startSec, endSec, shiftCents, delaySec },
      speed: sounding.speed,
      leadSec: laid.leadSec,
      madeAtMs: Date.now(),
    };
    const take: UnsentTake = {
      id: crypto.randomUUID(),
      songId: this.of.songId,
      about,
      sound: new Blob([encodeWav(channels, rateHz)], { type: TAKE_MEDIA_TYPE }),
      durationSec: channels[0]!.length / rateHz,
      sampleRateHz: rateHz,
      channelCount: channels.length === 2 ? 2 : 1,
      judged: null,
    };
    this.events.keep({
      take,
      caution: [endWords, levelCaution(sound.peak)].filter(Boolean).join(" ") || null,
    });
  }

  private unfollow(): void {
    for (const stop of this.stops) stop();
    this.stops = [];
  }

  /** Gives device and record back. */
  private leave(): void {
    clearTimeout(this.finishing);
    this.unfollow();
    this.scope?.abort(new Error("the take is over"));
    this.scope = null;
    this.capture?.close();
    this.capture = null;
    this.levelFrom = 0;
    this.player.alone.leave();
    this.tell(RECORDER_OFF);
  }
}
