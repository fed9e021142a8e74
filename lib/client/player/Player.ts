import { keptListening, type ListeningSettings, shiftCents } from "@/lib/document/records/ListeningSettings";
import type { BeatGrid } from "@/lib/notation/barGrid";
import type { Cents, Seconds } from "@/lib/units/quantities";
import type { RecordInMemory } from "../playback/openMemory";
import type { Loop, LoopManner } from "../playback/playbackMessages";
import { ladderSpeed } from "../playback/speedLadder";
import { wordsOf } from "../requests/request";
import type { TracedNote } from "../song/noteTrace";
import { Watched } from "../watched/Watched";
import { applyToChain } from "./applyToChain";
import { FrameClock } from "./FrameClock";
import { LoudnessWatch } from "./LoudnessWatch";
import { MEDIA_SPEEDS, MediaPlayback } from "./MediaPlayback";
import type { MemoryPlayback } from "./MemoryPlayback";
import { NotesInRecord } from "./NotesInRecord";
import { type OutputChain, openOutputChain } from "./outputChain";
import type { Playback, PlaybackEvents, Sounding } from "./Playback";
import { AT_FIRST, type Pass, type PlayerState } from "./PlayerState";

/** How long the record still sounds by the media element while it begins to from memory. */
const HAND_OVER_MS = 60;

/**
 * Plays one record: by the media element at once, from memory as soon as it is decoded there. It owns both, the output
 * chain, the frame clock and the loudness watch; {@link close} ends them all.
 */
export class Player extends Watched<PlayerState> {
  private readonly byMedia: MediaPlayback;
  private playback: Playback;
  private readonly scope = new AbortController();
  private readonly clock = new FrameClock(
    () => this.timeSec,
    () => this.onFrame(),
  );
  private readonly loudness = new LoudnessWatch(
    () => this.chain,
    () => this.now().loop !== null && this.now().isPlaying,
    (isCautioned) => isCautioned !== this.now().isCautioned && this.tell({ isCautioned }),
  );
  private readonly inRecord: NotesInRecord;
  private chain: OutputChain | null = null;
  private grid: BeatGrid | null = null;

  constructor(
    private readonly url: string,
    readonly durationSec: Seconds,
  ) {
    super(AT_FIRST);
    this.byMedia = new MediaPlayback(url, durationSec, this.events);
    this.playback = this.byMedia;
    this.inRecord = new NotesInRecord(this);
  }

  /** Second of the record that is heard now. */
  get timeSec(): Seconds {
    return this.playback.timeSec;
  }

  get isPaused(): boolean {
    return this.playback.isPaused;
  }

  /** Whether the record sounds: it may be playing and yet be waiting, counted in, or on its way to another place. */
  get isRunning(): boolean {
    return this.playback.isRunning;
  }

  /** Whether {@link sounding} is known to the sample. */
  get isExact(): boolean {
    return this.playback.isExact;
  }

  /** Which second of the record sounds at which time of the audio context. */
  sounding(): Sounding {
    return this.playback.sounding();
  }

  /** The way to the ears; null before it was wanted. */
  get output(): OutputChain | null {
    return this.chain;
  }

  /** The way to the ears, opened when it is first wanted: from a person's own act, or browsers keep it silent. */
  openOutput(): OutputChain {
    if (this.chain) return this.chain;
    const chain = openOutputChain();
    this.chain = chain;
    this.byMedia.connect(chain);
    applyToChain(chain, this.now());
    void this.takeIntoMemory(chain);
    return chain;
  }

  /** Calls back with the time, every frame while playing and after each seek; returns the way to stop. */
  readonly onTime = this.clock.onTime;

  async play(): Promise<void> {
    const { loop, pass } = this.now();
    const beginSec = this.loopBeginSec;
    if (loop && !pass && (this.timeSec < beginSec - 0.01 || this.timeSec >= loop.endSec - 0.02))
      this.seek(beginSec);
    await this.start(true);
  }

  /** Plays from a second of the record on, counted in where that is wanted. */
  async playFrom(timeSec: Seconds): Promise<void> {
    this.inRecord.leave();
    if (!this.playback.isPaused) this.playback.pause();
    this.jump(timeSec);
    await this.start(true);
  }

  /**
   * Plays a stretch for itself: as often and as fast as it says, counted in as it says, whatever is looped. It is left by
   * {@link leavePass}; whoever plays it does so when it has been heard.
   */
  async playPass(pass: Pass): Promise<void> {
    this.inRecord.leave();
    if (!this.playback.isPaused) this.playback.pause();
    this.setPass(pass);
    this.jump(pass.fromSec);
    await this.start(true);
  }

  /** Plays the stretch over and over, or once, from now on. */
  setPassLoop(loop: Loop | null): void {
    const { pass } = this.now();
    if (pass) this.setPass({ ...pass, loop });
  }

  /** Hears the record in another way from now on. */
  setPassRecord(record: Pass["record"]): void {
    const { pass } = this.now();
    if (pass && pass.record !== record) this.tell({ pass: { ...pass, record } });
  }

  /** Goes back to how one practises; nothing where no pass is being played. */
  leavePass(): void {
    if (!this.now().pass) return;
    if (!this.playback.isPaused) this.playback.pause();
    this.setPass(null);
  }

  /**
   * Plays notes where they sound in the record, all else faint, from a little before the first to the end of the last;
   * then the player is where it was, and plays on if it did. Pausing goes back at once, seeking stays where it leads.
   */
  async playNotes(notes: readonly TracedNote[], tuningCents: Cents): Promise<void> {
    await this.inRecord.play(notes, tuningCents);
  }

  /** Where other sound joins the record, so that both together pass limiter and ceiling. */
  beside(): AudioNode {
    return this.openOutput().beside;
  }

  pause(): void {
    this.playback.pause();
    this.inRecord.stop();
  }

  toggle(): void {
    if (this.now().isPlaying) this.pause();
    else void this.play();
  }

  seek(timeSec: Seconds): void {
    if (!this.inRecord.leave(timeSec)) this.jump(timeSec);
  }

  /** How the record is listened to, as plain data that can be kept and given back. */
  listening(): ListeningSettings {
    return this.now().listening;
  }

  /**
   * Listens in that way from now on; what is not given stays as it is. What only a record in memory can do
   * ({@link PlayerState.memory}) is kept and done as soon as it is there.
   */
  setListening(settings: Partial<ListeningSettings>): void {
    const before = this.listening();
    const listening = keptListening(settings, before);
    const { loop, timesThrough } = this.now();
    if (listening.ladder.isOn && loop && JSON.stringify(listening.ladder) !== JSON.stringify(before.ladder))
      listening.speed = ladderSpeed(listening.ladder, timesThrough);
    this.tell({ listening });
    this.apply();
    this.applyToChain();
  }

  /** By a person's own hand, which a speed ladder gives way to. */
  setSpeed(speed: number): void {
    this.setListening({ speed, ladder: { ...this.listening().ladder, isOn: false } });
  }

  setLevel(level: number): void {
    const kept = Math.min(1, Math.max(0, level));
    this.chain?.setLevel(kept);
    this.tell({ level: kept });
  }

  setMuted(isMuted: boolean): void {
    this.tell({ isMuted });
    this.applyToChain();
  }

  /** Whether each beat clicks. */
  setClicking(isClicking: boolean): void {
    this.tell({ isClicking });
    this.playback.setClicking(isClicking && !this.now().isOnNotes);
  }

  setClickLevel(level: number): void {
    this.tell({ clickLevel: Math.min(1, Math.max(0, level)) });
    this.applyToChain();
  }

  /** The beats by which is counted in and clicked; null where none are known. */
  setBeats(grid: BeatGrid | null): void {
    this.grid = grid;
    this.playback.setBeats(grid);
  }

  setLoop(loop: Loop | null): void {
    this.tell({ loop, timesThrough: 0 });
    const { ladder } = this.listening();
    if (loop && ladder.isOn) this.setListening({ speed: ladderSpeed(ladder, 0) });
    if (this.now().isOnNotes || this.now().pass) return;
    this.setPlaybackLoop();
    if (loop && this.now().isPlaying && (this.timeSec < this.loopBeginSec || this.timeSec > loop.endSec))
      this.seek(this.loopBeginSec);
  }

  /** Says whether something sounds beside the record that goes on and on: it counts as a loop does. */
  setEndless(isSounding: boolean): void {
    this.loudness.setEndless(isSounding);
  }

  close(): void {
    this.scope.abort();
    this.loudness.close();
    this.clock.close();
    this.byMedia.close();
    if (this.playback !== this.byMedia) this.playback.close();
    this.chain?.close();
    this.leaveWatchers();
  }

  /** Goes elsewhere, whatever is heard. */
  jump(timeSec: Seconds): void {
    this.playback.seek(timeSec);
  }

  /** Begins to sound. @param isCountedIn whether bars are counted in before */
  async start(isCountedIn: boolean): Promise<void> {
    const chain = this.openOutput();
    this.inRecord.follow();
    await chain.resume();
    await this.playback.play(isCountedIn);
  }

  /** Turns to hearing notes in the record, or back: there is no loop in it, and no click. */
  setOnNotes(isOnNotes: boolean): void {
    this.tell({ isOnNotes });
    this.setPlaybackLoop();
    this.playback.setClicking(this.now().isClicking && !isOnNotes);
    this.applyToChain();
  }

  /** Where a loop begins with what leads into it. */
  private get loopBeginSec(): Seconds {
    const { loop, listening } = this.now();
    return loop ? Math.max(0, loop.startSec - listening.preRollSec) : 0;
  }

  private setPass(pass: Pass | null): void {
    this.tell({ pass });
    this.apply();
    this.setPlaybackLoop();
  }

  private setPlaybackLoop(): void {
    const { loop, timesThrough, isOnNotes, pass } = this.now();
    if (pass) this.playback.setLoop(pass.loop, 0);
    else this.playback.setLoop(isOnNotes ? null : loop, timesThrough);
  }

  /** What happens to the playback there is: each tells until another takes its place. */
  private readonly events: PlaybackEvents = {
    began: () => {
      this.tell({ isPlaying: true, fault: null });
      this.clock.run();
    },
    stopped: () => this.end(),
    ended: () => {
      this.end();
      this.inRecord.leave();
    },
    moved: () => this.clock.tell(),
    passed: () => this.inRecord.follow(),
    turned: (timesThrough, speed) => {
      if (this.now().pass) return;
      this.tell({ timesThrough });
      if (this.listening().ladder.isOn && speed !== this.now().speed)
        this.tell({ speed, listening: { ...this.listening(), speed } });
    },
    failed: (fault) => {
      this.inRecord.fail();
      this.tell({ isPlaying: false, fault });
    },
  };

  /** Brings the playback to what is wanted, as far as it can. */
  private apply(): void {
    const { listening, memory, pass } = this.now();
    const isWhole = memory.kind === "ready";
    const wanted = pass?.speed ?? listening.speed;
    const speed = isWhole ? wanted : Math.min(MEDIA_SPEEDS.fastest, Math.max(MEDIA_SPEEDS.slowest, wanted));
    const cents = isWhole ? shiftCents(listening) : 0;
    this.tell({ speed, shiftCents: cents });
    this.playback.setManner(pass ? mannerOf(pass, listening) : listening);
    this.playback.setPace({ speed, shiftCents: cents });
  }

  private applyToChain(): void {
    if (this.chain) applyToChain(this.chain, this.now());
  }

  private async takeIntoMemory(chain: OutputChain): Promise<void> {
    const { signal } = this.scope;
    try {
      const [{ openMemory }, { MemoryPlayback }] = await Promise.all([
        import("../playback/openMemory"),
        import("./MemoryPlayback"),
      ]).catch(() => {
        throw new Error("The player for records in memory could not be fetched.");
      });
      signal.throwIfAborted();
      const record = await openMemory(this.url, this.durationSec, chain.context, signal, (progress) =>
        this.tell({ memory: { kind: "coming", ...progress } }),
      );
      record.node.connect(chain.record, 0);
      record.node.connect(chain.clicks, 1);
      this.handOver(record, chain, MemoryPlayback);
    } catch (fault) {
      if (!signal.aborted) this.tell({ memory: { kind: "failed", because: wordsOf(fault) } });
    }
  }

  /** Goes on from memory where the media element is. */
  private handOver(record: RecordInMemory, chain: OutputChain, ByMemory: typeof MemoryPlayback): void {
    const { byMedia } = this;
    const isPlaying = !byMedia.isPaused;
    if (!isPlaying && this.now().isPlaying) {
      // It has stopped and is about to say so, or to go round its loop.
      byMedia.onceStopped(() => this.handOver(record, chain, ByMemory));
      return;
    }
    const { timeSec } = byMedia;
    byMedia.leave(isPlaying ? HAND_OVER_MS : 0);
    const fromMemory = new ByMemory(record.node.port, chain.context, this.durationSec, this.events);
    this.playback = fromMemory;
    this.tell({ memory: { kind: "ready", channels: record.channels } });
    fromMemory.setBeats(this.grid);
    this.apply();
    this.applyToChain();
    this.setPlaybackLoop();
    fromMemory.setClicking(this.now().isClicking && !this.now().isOnNotes);
    fromMemory.seek(timeSec);
    if (isPlaying) void fromMemory.play(false);
  }

  private onFrame(): void {
    this.playback.look();
    this.inRecord.follow();
    this.loudness.look();
  }

  private end(): void {
    this.clock.stop();
    this.tell({ isPlaying: false });
    this.clock.tell();
  }
}

/** A pass goes round its loop as the record is, and at one speed. */
function mannerOf({ countInBars }: Pass, { seamMs, ladder }: ListeningSettings): LoopManner {
  return { seamMs, gapSec: 0, preRollSec: 0, countInBars, ladder: { ...ladder, isOn: false } };
}
