import { describe, expect, it } from "vitest";
import { Signal } from "@/lib/dsp/Signal";
import { EarFeatures } from "@/lib/hearing/learned/EarFeatures";
import { EarNetwork } from "@/lib/hearing/learned/EarNetwork";
import { BINS, HOP, OFFSET_REACH, PADDING_FRAMES, SEMITONES } from "@/lib/hearing/learned/layout";
import { EAR } from "@/lib/hearing/learned/loadLearnedEar";
import { loadWeights } from "@/lib/hearing/learned/loadWeights";
import type { ChordStep } from "@/lib/hearing/learned/stages/ChordHead";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import { readWeightFile } from "@/lib/server/hearing/weightFiles";
import { apart, byFrame, farthest, mean, ReferenceFile } from "./referenceFile";

const weights = loadWeights(EAR, (await readWeightFile("ear"))!);

// A short sound with its features and the network's raw outputs, written by the training's own code with PyTorch
// 2.11 (lib/hearing/training/export/reference_vectors.py) from the same weights. Little-endian float32, one after
// another: sound, features (bank, frame, bin), notes (map, frame, semitone), chord (step, class),
// bass (step, class), beat (kind, frame).
const MAPS = weights.noteMaps.length;
const FRAMES = 64;
const STEPS = FRAMES / 4;
const CLASSES = 121;
const BASS_CLASSES = 13;
const file = new ReferenceFile("tests/fixtures/hearing/ear-reference.bin");
const sound = file.take((FRAMES - 1) * HOP);
const features = file.take(2 * FRAMES * BINS);
const notes = file.take(MAPS * FRAMES * SEMITONES);
const chord = file.take(STEPS * CLASSES);
const bass = file.take(STEPS * BASS_CLASSES);
const beat = file.take(2 * FRAMES);

function logSoftmax(values: Float32Array): number[] {
  const top = Math.max(...values);
  const sum = values.reduce((total, value) => total + Math.exp(value - top), 0);
  return [...values].map((value) => value - top - Math.log(sum));
}

describe("the learned ear, against PyTorch", () => {
  it("has taken the whole file of reference", () => {
    expect(file.isAtEnd).toBe(true);
  });

  it("sees the same features", () => {
    const signal = Signal.of(sound, HEARING_RATE_HZ);
    const heard = new EarFeatures({ signal, side: null }, FRAMES, false);
    const rows = new Float32Array(FRAMES * heard.width);
    heard.read(PADDING_FRAMES, FRAMES, rows);
    const wanted = byFrame(features, 2);
    // Our kernels are cut at a small share of their peak, which tells in bins that hardly sound.
    expect(mean(apart(rows, wanted))).toBeLessThan(0.005);
    expect(farthest(rows, wanted)).toBeLessThan(0.1);
  });

  it("says the same of beats, chords, bass and notes from the same features", () => {
    const beats: number[] = [];
    const downbeats: number[] = [];
    const steps: ChordStep[] = [];
    const heardNotes = new Float32Array(notes.length);
    const network = new EarNetwork(
      weights,
      {
        onChords: (step) => steps.push({ chords: step.chords.slice(), bass: step.bass.slice() }),
        onBeat: (onBeat, onDownbeat) => {
          beats.push(onBeat);
          downbeats.push(onDownbeat);
        },
        onNotes: ({ index, values, step }) => {
          for (let map = 0; map < MAPS; map++)
            for (let s = 0; s < SEMITONES; s++)
              heardNotes[(map * FRAMES + index) * SEMITONES + s] = values[s * step + map]!;
        },
      },
      FRAMES,
    );
    network.push(byFrame(features, 2), FRAMES);
    network.finish();
    const logistic = (value: number) => 1 / (1 + Math.exp(-value));
    expect(farthest(beats, Array.from(beat.subarray(0, FRAMES), logistic))).toBeLessThan(1e-3);
    expect(farthest(downbeats, Array.from(beat.subarray(FRAMES), logistic))).toBeLessThan(1e-3);
    const offset = weights.noteMaps.indexOf("offset");
    const wantedNotes = notes.map((value, index) =>
      Math.floor(index / (FRAMES * SEMITONES)) === offset ? OFFSET_REACH * Math.tanh(value) : logistic(value),
    );
    expect(farthest(heardNotes, wantedNotes)).toBeLessThan(1e-3);
    expect(steps).toHaveLength(STEPS);
    steps.forEach((step, index) => {
      const wanted = logSoftmax(chord.subarray(index * CLASSES, (index + 1) * CLASSES));
      const wantedBass = logSoftmax(bass.subarray(index * BASS_CLASSES, (index + 1) * BASS_CLASSES));
      expect(farthest(step.chords.map(Math.exp), wanted.map(Math.exp))).toBeLessThan(1e-3);
      expect(farthest(step.bass.map(Math.exp), wantedBass.map(Math.exp))).toBeLessThan(1e-3);
    });
  });
});
