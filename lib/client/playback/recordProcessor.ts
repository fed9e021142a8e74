import type { PlaybackAnswer, PlaybackMessage } from "./playbackMessages";
import { RecordSamples } from "./RecordSamples";
import { RecordVoice } from "./RecordVoice";
import { Stretch } from "./Stretch";
import { openStretchWasm } from "./stretchWasm";
import { RECORD_PROCESSOR } from "./workletNames";

/** What an AudioWorkletGlobalScope has (Web Audio API, "The AudioWorkletGlobalScope interface"). */
declare const sampleRate: number;
declare const currentFrame: number;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

/** How many portions pass between two reports. */
const REPORT_EVERY = 8;

class RecordProcessor extends AudioWorkletProcessor {
  private samples: RecordSamples | null = null;
  private voice: RecordVoice | null = null;
  private number = 0;
  private portions = 0;
  private wasSounding = false;
  private isOpen = true;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<PlaybackMessage>) => this.obey(data);
  }

  /** Writes the record into the first output, the clicks into the second. */
  process(_: Float32Array[][], [record, clicks]: Float32Array[][]): boolean {
    const { voice } = this;
    const [left, right] = record ?? [];
    const click = clicks?.[0];
    if (!voice || !left || !right || !click) return this.isOpen;
    this.portions += 1;
    const isSounding = voice.now().isSounding;
    if (this.portions % REPORT_EVERY === 0 || isSounding !== this.wasSounding) this.report();
    this.wasSounding = isSounding;
    voice.render([left, right], click, left.length);
    return this.isOpen;
  }

  private obey(message: PlaybackMessage): void {
    switch (message.kind) {
      case "open":
        this.samples = new RecordSamples(message.rateHz, message.peak);
        break;
      case "chunk":
        this.samples?.add(message.chunk);
        break;
      case "loaded":
        void this.load();
        break;
      case "command":
        this.number = message.number;
        this.voice?.obey(message.command);
        this.report();
        break;
      case "close":
        this.isOpen = false;
        this.voice = null;
        this.samples = null;
    }
  }

  private async load(): Promise<void> {
    try {
      const stretches = await Promise.all(
        [0, 1, 2].map(async () => new Stretch(await openStretchWasm(), sampleRate)),
      );
      if (!this.samples || !this.isOpen) return;
      this.voice = new RecordVoice(this.samples, stretches as [Stretch, Stretch, Stretch]);
      this.answer({ kind: "ready" });
    } catch (fault) {
      this.answer({ kind: "failed", because: fault instanceof Error ? fault.message : String(fault) });
    }
  }

  private report(): void {
    if (!this.voice) return;
    const { number } = this;
    this.answer({
      kind: "report",
      report: { ...this.voice.now(), number, atSec: currentFrame / sampleRate },
    });
  }

  private answer(answer: PlaybackAnswer): void {
    this.port.postMessage(answer);
  }
}

registerProcessor(RECORD_PROCESSOR, RecordProcessor);
