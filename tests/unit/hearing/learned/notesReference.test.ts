import { existsSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Signal } from "@/lib/dsp/Signal";
import { EarFeatures } from "@/lib/hearing/learned/EarFeatures";
import { BINS, HOP, OFFSET_REACH, PADDING_FRAMES, SEMITONES } from "@/lib/hearing/learned/layout";
import { NOTES_EAR } from "@/lib/hearing/learned/loadNotesEar";
import { loadWeights } from "@/lib/hearing/learned/loadWeights";
import { NotesNetwork } from "@/lib/hearing/learned/NotesNetwork";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import { readWeightFile } from "@/lib/server/hearing/weightFiles";
import { apart, byFrame, farthest, mean, ReferenceFile } from "./referenceFile";

// A short stereo sound with its features and the raw outputs of the notes ear, written by the training's own code with
// PyTorch (lib/hearing/training/export/reference_vectors.py) from the same weights. Little-endian float32, one after
// another: sound (mid, then side), features (bank, frame, bin), notes (map, frame, semitone).
const REFERENCE = "tests/fixtures/hearing/notes-ear-reference.bin";
const MAPS = 9;
const FRAMES = 64;
const BANKS = 4;
const BALANCE = 3;
const LENGTH = (FRAMES - 1) * HOP;

async function read() {
  const weights = loadWeights(NOTES_EAR, (await readWeightFile("notes-ear"))!);
  const file = new ReferenceFile(REFERENCE);
  const [signal, side] = [file, file].map((each) => Signal.of(each.take(LENGTH), HEARING_RATE_HZ));
  const features = byFrame(file.take(BANKS * FRAMES * BINS), BANKS);
  const notes = file.take(MAPS * FRAMES * SEMITONES);
  return { weights, sound: { signal: signal!, side: side! }, features, notes, isWhole: file.isAtEnd };
}

/** All numbers of one bank. */
function ofBank(rows: Float32Array, bank: number): Float32Array {
  return rows.filter((_, at) => Math.floor(at / BINS) % BANKS === bank);
}

describe.skipIf(!existsSync(REFERENCE))("the notes ear, against PyTorch", () => {
  it("has taken the whole file of reference", async () => {
    const { isWhole, weights } = await read();
    expect(isWhole).toBe(true);
    expect(weights.noteMaps).toHaveLength(MAPS);
  });

  it("sees the same features", async () => {
    const { sound, features } = await read();
    const heard = new EarFeatures(sound, FRAMES, true);
    const rows = new Float32Array(FRAMES * heard.width);
    heard.read(PADDING_FRAMES, FRAMES, rows);
    for (let bank = 0; bank < BANKS; bank++) {
      const [found, wanted] = [ofBank(rows, bank), ofBank(features, bank)];
      // Our kernels are cut at a small share of their peak, which tells in bins that hardly sound.
      expect(mean(apart(found, wanted))).toBeLessThan(0.005);
      if (bank !== BALANCE) expect(farthest(found, wanted)).toBeLessThan(0.1);
    }
  });

  it.each([
    { numbers: "single floats", rounded: false, most: 1e-3, usual: 1e-5 },
    // As the notes ear hears: most places stay far nearer than the farthest.
    { numbers: "numbers of 16 bits", rounded: true, most: 5e-3, usual: 2e-4 },
  ])("says the same of notes from the same features, in $numbers", async ({ rounded, most, usual }) => {
    const { weights, features, notes } = await read();
    const found = new Float32Array(notes.length);
    const network = new NotesNetwork(
      weights,
      true,
      ({ index, values, step }) => {
        for (let map = 0; map < MAPS; map++)
          for (let s = 0; s < SEMITONES; s++)
            found[(map * FRAMES + index) * SEMITONES + s] = values[s * step + map]!;
      },
      FRAMES,
      rounded,
    );
    network.push(features, FRAMES);
    network.finish();
    const offset = weights.noteMaps.indexOf("offset");
    const wanted = notes.map((value, index) =>
      Math.floor(index / (FRAMES * SEMITONES)) === offset
        ? OFFSET_REACH * Math.tanh(value)
        : 1 / (1 + Math.exp(-value)),
    );
    expect(farthest(found, wanted)).toBeLessThan(most);
    expect(mean(apart(found, wanted))).toBeLessThan(usual);
  });
});
