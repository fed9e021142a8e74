import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Signal } from "@/lib/dsp/Signal";
import { EarFeatures } from "@/lib/hearing/learned/EarFeatures";
import { EarNetwork } from "@/lib/hearing/learned/EarNetwork";
import { BINS, HOP, OFFSET_REACH, PADDING_FRAMES, SEMITONES } from "@/lib/hearing/learned/layout";
import { type EarManifest, loadWeights } from "@/lib/hearing/learned/loadLearnedEar";
import type { ChordStep } from "@/lib/hearing/learned/stages/ChordHead";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";

const manifest = JSON.parse(readFileSync("lib/hearing/learned/weights/ear.json", "utf8")) as EarManifest;
const weights = loadWeights(manifest, readFileSync("lib/hearing/learned/weights/ear.bin"));

// A short sound with its features and the network's raw outputs, written by the training's own code with PyTorch
// 2.11 (lib/hearing/training/export/reference_vectors.py) from the same weights. Little-endian float32, one after
// another: sound, features (bank, frame, bin), notes (map, frame, semitone), chord (step, class),
// bass (step, class), beat (kind, frame).
const MAPS = weights.noteMaps.length;
const FRAMES = 64;
const STEPS = FRAMES / 4;
const CLASSES = 121;
const BASS_CLASSES = 13;
const bytes = readFileSync("tests/fixtures/hearing/ear-reference.bin");
const numbers = new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length));
let taken = 0;
function take(length: number): Float32Array {
  taken += length;
  return numbers.subarray(taken - length, taken);
}
const sound = take((FRAMES - 1) * HOP);
const features = take(2 * FRAMES * BINS);
const notes = take(MAPS * FRAMES * SEMITONES);
const chord = take(STEPS * CLASSES);
const bass = take(STEPS * BASS_CLASSES);
const beat = take(2 * FRAMES);

function logSoftmax(values: Float32Array): number[] {
  const top = Math.max(...values);
  const sum = values.reduce((total, value) => total + Math.exp(value - top), 0);
  return [...values].map((value) => value - top - Math.log(sum));
}

function farthest(found: ArrayLike<number>, wanted: ArrayLike<number>): number {
  expect(found.length).toBe(wanted.length);
  return Math.max(...Array.from(wanted, (value, index) => Math.abs(value - (found[index] ?? Number.NaN))));
}

describe("the learned ear, against PyTorch", () => {
  it("has taken the whole file of reference", () => {
    expect(taken).toBe(numbers.length);
  });

  it("sees the same features", () => {
    const signal = Signal.of(sound, HEARING_RATE_HZ);
    const rows = new Float32Array(FRAMES * EarFeatures.width);
    new EarFeatures(signal, FRAMES).read(PADDING_FRAMES, FRAMES, rows);
    const wanted = new Float32Array(rows.length);
    for (let frame = 0; frame < FRAMES; frame++)
      for (let bank = 0; bank < 2; bank++)
        for (let bin = 0; bin < BINS; bin++)
          wanted[(frame * 2 + bank) * BINS + bin] = features[(bank * FRAMES + frame) * BINS + bin]!;
    // Our kernels are cut at a small share of their peak, which tells in bins that hardly sound.
    const apart = rows.map((value, index) => Math.abs(value - wanted[index]!));
    expect(apart.reduce((sum, value) => sum + value) / apart.length).toBeLessThan(0.005);
    expect(farthest(rows, wanted)).toBeLessThan(0.1);
  });

  it("says the same of beats, chords, bass and notes from the same features", () => {
    const rows = new Float32Array(FRAMES * 2 * BINS);
    for (let frame = 0; frame < FRAMES; frame++)
      for (let bank = 0; bank < 2; bank++)
        rows.set(
          features.subarray((bank * FRAMES + frame) * BINS, (bank * FRAMES + frame + 1) * BINS),
          (frame * 2 + bank) * BINS,
        );
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
    network.push(rows, FRAMES);
    network.finish();
    const logistic = (value: number) => 1 / (1 + Math.exp(-value));
    expect(farthest(beats, Array.from(beat.subarray(0, FRAMES), logistic))).toBeLessThan(1e-3);
    expect(farthest(downbeats, Array.from(beat.subarray(FRAMES), logistic))).toBeLessThan(1e-3);
    const offset = weights.noteMaps.indexOf("offset");
    const wantedNotes = notes.map((value, index) =>
      Math.floor(index / (FRAMES * SEMITONES)) === offset ? OFFSET_REACH * Math.tanh(value) : logistic(value),
    );
    const apart = heardNotes.map((value, index) => Math.abs(value - wantedNotes[index]!));
    expect(apart.reduce((most, value) => Math.max(most, value))).toBeLessThan(1e-3);
    expect(steps).toHaveLength(STEPS);
    steps.forEach((step, index) => {
      const wanted = logSoftmax(chord.subarray(index * CLASSES, (index + 1) * CLASSES));
      const wantedBass = logSoftmax(bass.subarray(index * BASS_CLASSES, (index + 1) * BASS_CLASSES));
      expect(farthest(step.chords.map(Math.exp), wanted.map(Math.exp))).toBeLessThan(1e-3);
      expect(farthest(step.bass.map(Math.exp), wantedBass.map(Math.exp))).toBeLessThan(1e-3);
    });
  });
});
