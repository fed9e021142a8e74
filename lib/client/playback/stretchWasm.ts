/** What the library's WebAssembly gives (signalsmith-stretch 1.3.2); lengths are in samples, buffers lie in its memory. */
export interface StretchWasm {
  HEAP8: Int8Array;
  _main(): number;
  _configure(channels: number, block: number, interval: number, isSpread: boolean): void;
  _reset(): void;
  _inputLatency(): number;
  _outputLatency(): number;
  _blockSamples(): number;
  _intervalSamples(): number;
  /** @returns where the inputs lie, channel after channel, and the outputs behind them */
  _setBuffers(channels: number, length: number): number;
  _seek(length: number, speed: number): void;
  _process(inLength: number, outLength: number): void;
}

interface LibraryProcessor {
  port: { onReady: () => void };
  wasmModule: StretchWasm;
}
type LibraryProcessorClass = new (options: object) => LibraryProcessor;

let loading: Promise<LibraryProcessorClass> | null = null;

/**
 * A fresh WebAssembly of the library, with memory of its own; in the audio thread as in Node.
 *
 * The package hands it out inside a processor of the audio thread only, which reads a record by itself, without seams and
 * with a start that fades in over 60 ms. So its processor is made here, on a stand-in for the thread's own class, and only
 * what is inside it is used.
 */
export async function openStretchWasm(): Promise<StretchWasm> {
  loading ??= loadProcessor();
  const Processor = await loading;
  return new Promise((resolve) => {
    const processor = new Processor({ numberOfOutputs: 1, outputChannelCount: [2] });
    processor.port.onReady = () => resolve(processor.wasmModule);
  });
}

/** Stands in for the audio thread's class while the package looks for it. */
class StandIn {
  readonly port = {
    onmessage: null,
    onReady: () => {},
    postMessage: (message: unknown) => {
      if (Array.isArray(message) && message[0] === "ready") this.port.onReady();
    },
  };
}

async function loadProcessor(): Promise<LibraryProcessorClass> {
  const thread = globalThis as unknown as Record<string, unknown>;
  let found: LibraryProcessorClass | null = null;
  const standIns: Record<string, unknown> = {
    AudioWorkletProcessor: StandIn,
    registerProcessor: (_: string, processor: LibraryProcessorClass) => {
      found = processor;
    },
    // Its processor asks for the rate only to set up what is set up anew here.
    ...("sampleRate" in thread ? {} : { sampleRate: 48_000 }),
  };
  const before = Object.fromEntries(
    Object.keys(standIns).map((name) => [name, Object.getOwnPropertyDescriptor(thread, name)]),
  );
  for (const [name, value] of Object.entries(standIns))
    Object.defineProperty(thread, name, { value, configurable: true, writable: true });
  try {
    await import("signalsmith-stretch");
  } finally {
    for (const [name, descriptor] of Object.entries(before))
      if (descriptor) Object.defineProperty(thread, name, descriptor);
      else if (name !== "sampleRate") delete thread[name];
  }
  if (!found) throw new Error("signalsmith-stretch has no processor in it; another version than 1.3.2?");
  return found;
}
