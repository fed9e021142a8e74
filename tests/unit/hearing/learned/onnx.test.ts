import { readFileSync } from "node:fs";
import * as ort from "onnxruntime-web";
import { describe, expect, it, vi } from "vitest";
import { EarNetwork } from "@/lib/hearing/learned/EarNetwork";
import { BINS } from "@/lib/hearing/learned/layout";
import { type EarManifest, loadWeights } from "@/lib/hearing/learned/loadLearnedEar";
import { earModel } from "../../../onnx/earModel";

vi.setConfig({ testTimeout: 60_000 });

const FRAMES = 96;
const WIDTH = 2 * BINS;

const manifest = JSON.parse(readFileSync("lib/hearing/learned/weights/ear.json", "utf8")) as EarManifest;
const weights = loadWeights(manifest, readFileSync("lib/hearing/learned/weights/ear.bin"));

/** Features that look like sound: lines that come and go over a floor. */
const features = Float32Array.from({ length: FRAMES * WIDTH }, (_, at) => {
  const [frame, bin] = [Math.floor(at / WIDTH), at % BINS];
  const line = bin % 19 === 4 ? 1.2 * Math.sin(0.2 * frame + bin) ** 2 : 0;
  return 0.1 + line + 0.1 * Math.sin(0.7 * at) ** 2;
});

async function byOnnx(): Promise<Record<string, Float32Array>> {
  ort.env.wasm.numThreads = 1;
  const session = await ort.InferenceSession.create(earModel(weights), { executionProviders: ["wasm"] });
  const byBank = new Float32Array(features.length);
  for (let frame = 0; frame < FRAMES; frame++)
    for (let bank = 0; bank < 2; bank++)
      byBank.set(
        features.subarray((2 * frame + bank) * BINS, (2 * frame + bank + 1) * BINS),
        (bank * FRAMES + frame) * BINS,
      );
  const said = await session.run({ features: new ort.Tensor("float32", byBank, [1, 2, FRAMES, BINS]) });
  return Object.fromEntries(Object.entries(said).map(([name, { data }]) => [name, data as Float32Array]));
}

function byOurs(): Record<string, number[]> {
  const [chords, bass, beat, downbeat]: number[][] = [[], [], [], []];
  const network = new EarNetwork(
    weights,
    {
      onChords: (step) => {
        chords!.push(...step.chords);
        bass!.push(...step.bass);
      },
      onBeat: (onBeat, onDownbeat) => {
        beat!.push(onBeat);
        downbeat!.push(onDownbeat);
      },
    },
    32,
  );
  for (let frame = 0; frame < FRAMES; frame += 32)
    network.push(features.subarray(frame * WIDTH, (frame + 32) * WIDTH), 32);
  network.finish();
  return { chords: chords!, bass: bass!, beats: [...beat!, ...downbeat!] };
}

describe("the learned ear, against onnxruntime", () => {
  it("says the same of chords, bass and beats with the weights that are shipped", async () => {
    const wanted = await byOnnx();
    const found = byOurs();
    expect(Object.keys(found).sort()).toEqual(Object.keys(wanted).sort());
    for (const [name, values] of Object.entries(found)) {
      expect(values).toHaveLength(wanted[name]!.length);
      const apart = values.map((value, i) => Math.abs(value - wanted[name]![i]!));
      expect(Math.max(...apart)).toBeLessThan(1e-3);
      // It is no constant that both say.
      expect(Math.max(...values) - Math.min(...values)).toBeGreaterThan(0.01);
    }
  });
});
