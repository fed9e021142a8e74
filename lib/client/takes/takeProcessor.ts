import { ChunkGatherer } from "./ChunkGatherer";
import { type CaptureMessage, TAKE_PROCESSOR } from "./takeMessages";

/** What an AudioWorkletGlobalScope has (Web Audio API, "The AudioWorkletGlobalScope interface"). */
declare const currentFrame: number;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

/** Hands over what comes in, with the frames at which it came; what goes out is silence. */
class TakeProcessor extends AudioWorkletProcessor {
  private readonly gatherer = new ChunkGatherer((chunk) =>
    this.port.postMessage(
      chunk,
      chunk.channels.map(({ buffer }) => buffer),
    ),
  );
  private isOpen = true;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<CaptureMessage>) => {
      if (data.kind === "close") this.isOpen = false;
    };
  }

  process([input]: Float32Array[][]): boolean {
    if (this.isOpen) this.gatherer.take(currentFrame, input ?? []);
    return this.isOpen;
  }
}

registerProcessor(TAKE_PROCESSOR, TakeProcessor);
