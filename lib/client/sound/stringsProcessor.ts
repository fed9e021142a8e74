/**
 * The body of the audio thread: the same strings as are rendered at once. The start bundles it into one file
 * (lib/cli/start/bundleWorklets.ts), since a worklet's module is not among those that the page's bundler builds.
 */
import { VoiceBank } from "@/lib/synth/VoiceBank";
import { type SoundMessage, STRINGS_PROCESSOR } from "./soundMessages";

/** What an AudioWorkletGlobalScope has (Web Audio API, "The AudioWorkletGlobalScope interface"). */
declare const sampleRate: number;
declare const currentFrame: number;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

class StringsProcessor extends AudioWorkletProcessor {
  private readonly bank = new VoiceBank(sampleRate);
  private readonly buses: Float32Array[] = [];
  private isOpen = true;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<SoundMessage>) => this.obey(data);
  }

  /** Adds into the outputs, one for each bus, mono; they come zeroed. */
  process(_: Float32Array[][], outputs: Float32Array[][]): boolean {
    let count = 0;
    for (let bus = 0; bus < outputs.length; bus += 1) {
      const out = outputs[bus]![0]!;
      this.buses[bus] = out;
      count = out.length;
    }
    this.bank.skipTo(currentFrame);
    this.bank.addTo(this.buses, count);
    return this.isOpen;
  }

  private obey(message: SoundMessage): void {
    this.bank.skipTo(currentFrame);
    switch (message.kind) {
      case "play":
        this.bank.play(message.group, message.notes);
        break;
      case "level":
        this.bank.setLevel(message.group, message.level);
        break;
      case "song":
        this.bank.hearOfSong(message.sec, message.atSec * sampleRate, message.speed);
        break;
      case "halt":
        this.bank.haltSong();
        break;
      case "close":
        this.isOpen = false;
    }
  }
}

registerProcessor(STRINGS_PROCESSOR, StringsProcessor);
