import { rms } from "@/lib/dsp/rms";
import type { Cents, Hertz, Midi, Seconds } from "@/lib/units/quantities";
import { Watched } from "../watched/Watched";
import { microphoneFault } from "./listenFaults";
import type { ListeningState } from "./MidiKeyboards";
import { nearerTuning } from "./nearerTuning";
import type { OnePitch } from "./onePitch";
import { followPick, NO_PICK, RINGS_SEC } from "./pickedTogether";
import { SoundKeeper } from "./SoundKeeper";
import { NOTHING_SETTLED, type SettledNote, settle } from "./settlePitch";

export interface MicrophoneState {
  state: ListeningState;
  /** Whether there is sound, and whether it is one note. */
  hears: "silence" | "note" | "unclear";
  /** The note that was held last; null before the first, and where several were heard since. */
  note: SettledNote | null;
  /** Several notes that were picked together since, ascending. */
  together: readonly Midi[];
  /** Why nothing is heard, in words; null where there is nothing to say. */
  fault: string | null;
}

/** Sound is looked at this often; a note is named about 0.2 s after its pick. */
const LOOK_EVERY_MS = 30;
/** What is heard is told a little later than it changes, so that words do not flicker. */
const STEADY_LOOKS = 5;
/** Smaller moves of a held note are not shown. */
const SHOWN_CENTS: Cents = 5;
/** What is kept holds a pick that has rung, and a little before it. */
const KEPT_SEC: Seconds = RINGS_SEC + 0.14;
/** How loud it is now is measured over so many samples. */
const LEVEL_SAMPLES = 1024;

/** What is done with notes that are heard, and what hearing them takes. */
export interface MicrophoneUse {
  /** Told when another note has settled, or the same after silence, or several that were picked together. */
  onNotes(midis: readonly Midi[]): void;
  /** Of the record, asked for at every look. */
  tuningCents(): Cents;
  /** Which notes ring at the end of a sound, as measured; null where nothing can tell. */
  hearTogether(samples: Float32Array, sampleRateHz: Hertz): Promise<readonly Midi[] | null>;
}

const NOTHING_HEARD = { hears: "silence", note: null, together: [] } as const;

/**
 * Hears notes by the microphone, as it is: without the browser's own filters, which are made for speech. One note is
 * named while it rings; several that are picked together, half a second after. Sound is looked at in this page and let go at once. {@link close} gives the microphone back; it can be opened again.
 */
export class Microphone extends Watched<MicrophoneState> {
  private scope: AbortController | null = null;
  private settling = NOTHING_SETTLED;
  private wasSilent = false;
  private pick = NO_PICK;
  private looks = { hears: "silence" as MicrophoneState["hears"], count: 0 };

  constructor(private readonly use: MicrophoneUse) {
    super({ state: "off", ...NOTHING_HEARD, fault: null });
  }

  /** To be called from a press: browsers then ask the person whether the page may, and let sound be looked at. */
  async open(): Promise<void> {
    if (this.scope) return;
    const scope = new AbortController();
    this.scope = scope;
    this.tell({ state: "asking", fault: null });
    try {
      if (!navigator.mediaDevices?.getUserMedia) throw new DOMException("", "NotSupportedError");
      const stream = await navigator.mediaDevices.getUserMedia({
        audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false },
      });
      const giveBack = () => {
        for (const track of stream.getTracks()) track.stop();
      };
      if (scope.signal.aborted) return giveBack();
      scope.signal.addEventListener("abort", giveBack);
      const [track] = stream.getAudioTracks();
      track?.addEventListener("ended", () => this.fail(new DOMException("", "NotFoundError")), {
        signal: scope.signal,
      });
      await this.listen(stream, scope.signal);
    } catch (thrown) {
      if (!scope.signal.aborted) this.fail(thrown);
    }
  }

  readonly close = (): void => {
    this.scope?.abort();
    this.scope = null;
    this.settling = NOTHING_SETTLED;
    this.wasSilent = false;
    this.pick = NO_PICK;
    this.looks = { hears: "silence", count: 0 };
    this.tell({ state: "off", ...NOTHING_HEARD, fault: null });
  };

  private fail(thrown: unknown): void {
    this.close();
    this.tell({ fault: microphoneFault(thrown, isSecureContext) });
  }

  private async listen(stream: MediaStream, signal: AbortSignal): Promise<void> {
    const context = new AudioContext();
    signal.addEventListener("abort", () => void context.close());
    // Fetched only now: most who open a song play nothing in.
    const [{ OnePitch }] = await Promise.all([import("./onePitch"), context.resume()]);
    if (signal.aborted) return;
    const ear = new OnePitch(context.sampleRate);
    // Nothing is connected to the way out: the microphone is never heard by itself.
    const analyser = new AnalyserNode(context, { fftSize: ear.frameLength });
    const keeper = new SoundKeeper(context.createMediaStreamSource(stream).connect(analyser), KEPT_SEC);
    const frame = new Float32Array(ear.frameLength);
    const timer = setInterval(() => {
      analyser.getFloatTimeDomainData(frame);
      if (this.look(ear, frame, context.currentTime))
        void this.askTogether(keeper.read(), context.sampleRate, signal);
    }, LOOK_EVERY_MS);
    signal.addEventListener("abort", () => clearInterval(timer));
    this.tell({ state: "listening" });
  }

  /** @returns whether several notes were picked together and have rung for long enough */
  private look(ear: OnePitch, frame: Float32Array, timeSec: Seconds): boolean {
    const moment = ear.hear(frame);
    const before = this.settling;
    this.settling = settle(before, moment, timeSec, this.use.tuningCents());
    const { pick, isDue } = followPick(
      this.pick,
      { moment, level: rms(frame.subarray(-LEVEL_SAMPLES)) },
      timeSec,
    );
    this.pick = pick;
    const { note } = this.settling;
    if (note && note !== before.note) this.take(note);
    const { hears, count } = this.looks;
    this.looks = { hears: moment.kind, count: hears === moment.kind ? count + 1 : 1 };
    if (this.looks.count === STEADY_LOOKS) {
      if (moment.kind === "silence") this.wasSilent = true;
      if (this.now().hears !== moment.kind) this.tell({ hears: moment.kind });
    }
    return isDue;
  }

  /** A note that rings on is told once, and again only where it was silent in between. */
  private take(note: SettledNote): void {
    const shown = this.now().note;
    const isAnother = note.midi !== shown?.midi;
    if (isAnother || Math.abs(note.offCents - shown.offCents) >= SHOWN_CENTS)
      this.tell({ note, together: [] });
    if (isAnother || this.wasSilent) this.use.onNotes([note.midi]);
    this.wasSilent = false;
  }

  private async askTogether(samples: Float32Array, sampleRateHz: Hertz, signal: AbortSignal): Promise<void> {
    const { pick } = this;
    const heard = await this.use.hearTogether(samples, sampleRateHz);
    // What has been picked since is what counts.
    if (signal.aborted || !heard || heard.length === 0 || this.pick.startSec !== pick.startSec) return;
    const { midis } = nearerTuning(heard, this.use.tuningCents());
    this.settling = NOTHING_SETTLED;
    this.tell({ note: null, together: midis });
    this.use.onNotes(midis);
  }
}
