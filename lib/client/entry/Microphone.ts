import type { Cents } from "@/lib/units/quantities";
import { microphoneFault } from "./listenFaults";
import type { ListeningState } from "./MidiKeyboards";
import { OnePitch } from "./onePitch";
import { NOTHING_SETTLED, type SettledNote, settle } from "./settlePitch";
import { Watched } from "./Watched";

export interface MicrophoneState {
  state: ListeningState;
  /** Whether there is sound, and whether it is one note. */
  hears: "silence" | "note" | "unclear";
  /** The note that was held last; null before the first. */
  note: SettledNote | null;
  /** Why nothing is heard, in words; null where there is nothing to say. */
  fault: string | null;
}

/** Sound is looked at this often; a note is named about 0.2 s after its pick. */
const LOOK_EVERY_MS = 30;
/** What is heard is told a little later than it changes, so that words do not flicker. */
const STEADY_LOOKS = 5;
/** Smaller moves of a held note are not shown. */
const SHOWN_CENTS: Cents = 5;

/**
 * Hears one note at a time by the microphone, as it is: without the browser's own filters, which are made for speech.
 * Sound is looked at in this page and let go at once. {@link close} gives the microphone back; it can be opened again.
 */
export class Microphone extends Watched<MicrophoneState> {
  private scope: AbortController | null = null;
  private settling = NOTHING_SETTLED;
  private wasSilent = false;
  private looks = { hears: "silence" as MicrophoneState["hears"], count: 0 };

  /**
   * @param onNote told when another note has settled, or the same after it was silent
   * @param tuningCents of the record, asked for at every look
   */
  constructor(
    private readonly onNote: (note: SettledNote) => void,
    private readonly tuningCents: () => Cents,
  ) {
    super({ state: "off", hears: "silence", note: null, fault: null });
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
    this.looks = { hears: "silence", count: 0 };
    this.tell({ state: "off", hears: "silence", note: null, fault: null });
  };

  private fail(thrown: unknown): void {
    this.close();
    this.tell({ fault: microphoneFault(thrown, isSecureContext) });
  }

  private async listen(stream: MediaStream, signal: AbortSignal): Promise<void> {
    const context = new AudioContext();
    signal.addEventListener("abort", () => void context.close());
    await context.resume();
    if (signal.aborted) return;
    const ear = new OnePitch(context.sampleRate);
    // Nothing is connected to the way out: the microphone is never heard by itself.
    const analyser = new AnalyserNode(context, { fftSize: ear.frameLength });
    context.createMediaStreamSource(stream).connect(analyser);
    const frame = new Float32Array(ear.frameLength);
    const timer = setInterval(() => {
      analyser.getFloatTimeDomainData(frame);
      this.look(ear, frame, context.currentTime);
    }, LOOK_EVERY_MS);
    signal.addEventListener("abort", () => clearInterval(timer));
    this.tell({ state: "listening" });
  }

  private look(ear: OnePitch, frame: Float32Array, timeSec: number): void {
    const moment = ear.hear(frame);
    const before = this.settling;
    this.settling = settle(before, moment, timeSec, this.tuningCents());
    const { note } = this.settling;
    if (note && note !== before.note) this.take(note);
    const { hears, count } = this.looks;
    this.looks = { hears: moment.kind, count: hears === moment.kind ? count + 1 : 1 };
    if (this.looks.count !== STEADY_LOOKS) return;
    if (moment.kind === "silence") this.wasSilent = true;
    if (this.now().hears !== moment.kind) this.tell({ hears: moment.kind });
  }

  /** A note that rings on is told once, and again only where it was silent in between. */
  private take(note: SettledNote): void {
    const shown = this.now().note;
    const isAnother = note.midi !== shown?.midi;
    if (isAnother || Math.abs(note.offCents - shown.offCents) >= SHOWN_CENTS) this.tell({ note });
    if (isAnother || this.wasSilent) this.onNote(note);
    this.wasSilent = false;
  }
}
