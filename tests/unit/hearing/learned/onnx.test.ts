import * as ort from "onnxruntime-web";
import { describe, expect, it, vi } from "vitest";
import { EarNetwork } from "@/lib/hearing/learned/EarNetwork";
import { BINS, OFFSET_REACH, SEMITONES } from "@/lib/hearing/learned/layout";
import { EAR } from "@/lib/hearing/learned/loadLearnedEar";
import { NOTES_EAR } from "@/lib/hearing/learned/loadNotesEar";
import { loadWeights } from "@/lib/hearing/learned/loadWeights";
import { NotesNetwork } from "@/lib/hearing/learned/NotesNetwork";
import { readWeightFile } from "@/lib/server/hearing/weightFiles";
import { earModel } from "../../../onnx/earModel";
import { notesEarModel } from "../../../onnx/notesEarModel";
import { handMadeNotesEar } from "./handMadeNotesEar";

vi.setConfig({ testTimeout: 60_000 });

const FRAMES = 96;

const weights = loadWeights(EAR, (await readWeightFile("ear"))!);
// As wide as the notes ear is.
const handMade = handMadeNotesEar(32, 96);
const notesWeights = loadWeights(NOTES_EAR, handMade);

/** Features that look like sound: lines that come and go over a floor, and a balance in the last of four spectra. */
function featuresOf(banks: number): Float32Array {
  const width = banks * BINS;
  return Float32Array.from({ length: FRAMES * width }, (_, at) => {
    const [frame, bank, bin] = [Math.floor(at / width), Math.floor(at / BINS) % banks, at % BINS];
    if (bank === 3) return Math.sin(0.3 * bin + 0.1 * frame);
    const line = bin % 19 === 4 ? 1.2 * Math.sin(0.2 * frame + bin) ** 2 : 0;
    return 0.1 + line + 0.1 * Math.sin(0.7 * at) ** 2;
  });
}

async function byOnnx(model: Uint8Array, banks: number): Promise<Record<string, Float32Array>> {
  ort.env.wasm.numThreads = 1;
  const session = await ort.InferenceSession.create(model, { executionProviders: ["wasm"] });
  const features = featuresOf(banks);
  const byBank = new Float32Array(features.length);
  for (let frame = 0; frame < FRAMES; frame++)
    for (let bank = 0; bank < banks; bank++)
      byBank.set(
        features.subarray((banks * frame + bank) * BINS, (banks * frame + bank + 1) * BINS),
        (bank * FRAMES + frame) * BINS,
      );
  const said = await session.run({ features: new ort.Tensor("float32", byBank, [1, banks, FRAMES, BINS]) });
  return Object.fromEntries(Object.entries(said).map(([name, { data }]) => [name, data as Float32Array]));
}

function feed(network: EarNetwork | NotesNetwork, banks: number): void {
  const features = featuresOf(banks);
  const width = banks * BINS;
  for (let frame = 0; frame < FRAMES; frame += 32)
    network.push(features.subarray(frame * width, (frame + 32) * width), 32);
  network.finish();
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
  feed(network, 2);
  return { chords: chords!, bass: bass!, beats: [...beat!, ...downbeat!] };
}

function notesByOurs(): number[] {
  const maps = notesWeights.noteMaps.length;
  const notes: number[] = new Array(maps * FRAMES * SEMITONES);
  const network = new NotesNetwork(
    notesWeights,
    true,
    ({ index, values, step }) => {
      for (let map = 0; map < maps; map++)
        for (let s = 0; s < SEMITONES; s++)
          notes[(map * FRAMES + index) * SEMITONES + s] = values[s * step + map]!;
    },
    32,
    false,
  );
  feed(network, 4);
  return notes;
}

function expectAlike(found: readonly number[], wanted: ArrayLike<number>): void {
  expect(found).toHaveLength(wanted.length);
  const apart = found.map((value, i) => Math.abs(value - wanted[i]!));
  const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b));
  expect(most(apart)).toBeLessThan(1e-3);
  // It is no constant that both say.
  expect(most(found.map((value) => Math.abs(value - found[0]!)))).toBeGreaterThan(0.01);
}

describe("the learned ears, against onnxruntime", () => {
  it("say the same of chords, bass and beats with the weights that are shipped", async () => {
    const wanted = await byOnnx(earModel(weights), 2);
    const found = byOurs();
    expect(Object.keys(found).sort()).toEqual(Object.keys(wanted).sort());
    for (const [name, values] of Object.entries(found)) expectAlike(values, wanted[name]!);
  });

  it("say the same of notes in stereo", async () => {
    const { notes } = await byOnnx(notesEarModel(notesWeights), 4);
    const offset = notesWeights.noteMaps.indexOf("offset");
    const wanted = notes!.map((value, i) =>
      Math.floor(i / (FRAMES * SEMITONES)) === offset
        ? OFFSET_REACH * Math.tanh(value)
        : 1 / (1 + Math.exp(-value)),
    );
    expectAlike(notesByOurs(), wanted);
  });
});
