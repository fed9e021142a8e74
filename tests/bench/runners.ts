import { EarNetwork } from "@/lib/hearing/learned/EarNetwork";
import { BINS } from "@/lib/hearing/learned/layout";
import type { NetworkWeights } from "@/lib/hearing/learned/NetworkWeights";

/** What the bench needs of onnxruntime-web, which has an entry point for Node and others for browsers. */
export interface OnnxRuntime {
  env: { wasm: { numThreads?: number; wasmPaths?: unknown } };
  InferenceSession: {
    create(
      model: Uint8Array,
      options: { executionProviders: string[] },
    ): Promise<{ run(feeds: Record<string, unknown>): Promise<unknown> }>;
  };
  Tensor: new (type: "float32", data: Float32Array, dims: number[]) => unknown;
}

/** 24 seconds; a multiple of the frames that either runner takes at once. */
const FRAMES = 1024;
const FRAME_SEC = 512 / 22_050;
const RUNS = 6;
const ROWS_AT_ONCE = 32;
/** The general runner gets as many frames at once as keeps its memory moderate, and need not overlap them. */
const GENERAL_FRAMES = 256;

/** Seconds a minute of audio for the network alone, on one thread. */
export interface RunnerTimes {
  ownSec: number;
  onnxSec: number;
}

/** Runs the learned network by our own kernels and by onnxruntime-web, by turns. */
export async function timeRunners(
  weights: NetworkWeights,
  model: Uint8Array,
  ort: OnnxRuntime,
  nowSec: () => number,
): Promise<RunnerTimes> {
  const width = 2 * BINS;
  const features = Float32Array.from({ length: FRAMES * width }, (_, i) => Math.abs(Math.sin(0.37 * i)));
  ort.env.wasm.numThreads = 1;
  const session = await ort.InferenceSession.create(model, { executionProviders: ["wasm"] });
  const own = (): void => {
    const network = new EarNetwork(weights, { onChords: () => {}, onBeat: () => {} }, ROWS_AT_ONCE);
    for (let frame = 0; frame < FRAMES; frame += ROWS_AT_ONCE) {
      network.push(features.subarray(frame * width, (frame + ROWS_AT_ONCE) * width), ROWS_AT_ONCE);
    }
    network.finish();
  };
  const onnx = async (): Promise<void> => {
    for (let frame = 0; frame < FRAMES; frame += GENERAL_FRAMES) {
      const part = features.slice(frame * width, (frame + GENERAL_FRAMES) * width);
      await session.run({ features: new ort.Tensor("float32", part, [1, 2, GENERAL_FRAMES, BINS]) });
    }
  };
  const times = { ownSec: Number.POSITIVE_INFINITY, onnxSec: Number.POSITIVE_INFINITY };
  const perMinute = 60 / (FRAMES * FRAME_SEC);
  for (let run = 0; run < RUNS; run++) {
    const start = nowSec();
    own();
    const middle = nowSec();
    await onnx();
    times.ownSec = Math.min(times.ownSec, perMinute * (middle - start));
    times.onnxSec = Math.min(times.onnxSec, perMinute * (nowSec() - middle));
  }
  return times;
}
