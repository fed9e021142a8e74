import { readFileSync } from "node:fs";
import { expect } from "vitest";
import { BINS } from "@/lib/hearing/learned/layout";

/** Reads a file of single floats, little-endian, part by part. */
export class ReferenceFile {
  private readonly numbers: Float32Array;
  private taken = 0;

  constructor(path: string) {
    const bytes = readFileSync(path);
    this.numbers = new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length));
  }

  take(length: number): Float32Array {
    this.taken += length;
    return this.numbers.subarray(this.taken - length, this.taken);
  }

  get isAtEnd(): boolean {
    return this.taken === this.numbers.length;
  }
}

/** Features by bank, frame and bin, put in rows of all banks of a frame. */
export function byFrame(features: Float32Array, banks: number): Float32Array {
  const frames = features.length / (banks * BINS);
  const rows = new Float32Array(features.length);
  for (let frame = 0; frame < frames; frame++)
    for (let bank = 0; bank < banks; bank++)
      rows.set(
        features.subarray((bank * frames + frame) * BINS, (bank * frames + frame + 1) * BINS),
        (frame * banks + bank) * BINS,
      );
  return rows;
}

/** How far each number lies from the one that is wanted. */
export function apart(found: ArrayLike<number>, wanted: ArrayLike<number>): number[] {
  expect(found.length).toBe(wanted.length);
  return Array.from(wanted, (value, index) => Math.abs(value - (found[index] ?? Number.NaN)));
}

export function farthest(found: ArrayLike<number>, wanted: ArrayLike<number>): number {
  return apart(found, wanted).reduce((most, value) => Math.max(most, value));
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
