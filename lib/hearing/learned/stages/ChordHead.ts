import type { Address } from "@/lib/dsp/simd/KernelMemory";
import { CHORD_BLOCKS, CHORD_STEP_FRAMES, OCTAVES, SEMITONES } from "../layout";
import type { Product, RowBlock } from "../simd/Product";
import { ChordBlock, circularProduct, PITCH_CLASSES, wrapRow } from "./ChordBlock";
import { type NetworkParts, pointwise } from "./NetworkParts";
import type { RowSink } from "./RowSink";

/** What the chord head says of one step of {@link CHORD_STEP_FRAMES} frames. */
export interface ChordStep {
  /** Natural log of the probability of each quality on each root, root by root from C, then of no chord. */
  chords: Float32Array;
  /** The same of each pitch class in the bass from C, then of none. */
  bass: Float32Array;
}

/**
 * Chords from the trunk: means over four frames, folded to twelve pitch classes with the octaves as channels, then
 * layers that treat all pitch classes alike, so that what is learned in one key holds in all.
 */
export class ChordHead implements RowSink {
  private readonly parts: NetworkParts;
  private readonly narrow: Product;
  private readonly fold: Product;
  private readonly perClass: Product;
  private readonly overall: Product;
  private readonly path: RowSink;
  private readonly onStep: (step: ChordStep) => void;
  private readonly pooled: Address;
  private readonly narrowed: Address;
  private readonly folded: Address;
  private readonly row: Address;
  private readonly said: Address;
  private readonly mean: Address;
  private readonly saidOverall: Address;
  private gathered = 0;

  constructor(parts: NetworkParts, onStep: (step: ChordStep) => void) {
    const { memory } = parts;
    this.parts = parts;
    this.onStep = onStep;
    this.narrow = pointwise(parts, "chord.in");
    this.fold = circularProduct(parts, "chord.circle");
    this.perClass = pointwise(parts, "chord.out");
    this.overall = pointwise(parts, "chord.none");
    this.pooled = memory.take(SEMITONES * this.narrow.terms);
    this.narrowed = memory.take(SEMITONES * this.narrow.width);
    this.folded = memory.take((2 * PITCH_CLASSES - 1) * OCTAVES * this.narrow.columns);
    this.row = memory.take(PITCH_CLASSES * this.fold.width);
    this.said = memory.take(PITCH_CLASSES * this.perClass.width);
    this.mean = memory.take(this.overall.terms);
    this.saidOverall = memory.take(this.overall.width);
    // Steps come one by one.
    const single = { ...parts, mostRows: 1 };
    let path: RowSink = { push: (block, rows) => this.say(block, rows), finish: () => {} };
    for (let i = CHORD_BLOCKS.length - 1; i >= 0; i--) {
      path = new ChordBlock(single, `chord.block${i}`, CHORD_BLOCKS[i]!, path);
    }
    this.path = path;
  }

  push(block: RowBlock, rows: number): void {
    const length = SEMITONES * this.narrow.terms;
    for (let row = 0; row < rows; row++) {
      const { floats } = this.parts.memory;
      const to = this.pooled / 4;
      if (this.gathered === 0) floats.fill(0, to, to + length);
      this.parts.kernels.addShare(block.address + 4 * row * block.step, this.pooled, length / 4, 1);
      this.gathered += 1;
      if (this.gathered < CHORD_STEP_FRAMES) continue;
      this.gathered = 0;
      this.step();
    }
  }

  /** Frames left over after the last whole step are left out. */
  finish(): void {
    this.gathered = 0;
    this.path.finish();
  }

  private step(): void {
    const { narrow, fold } = this;
    narrow.run(
      { address: this.pooled, step: narrow.terms },
      { address: this.narrowed, step: narrow.width },
      SEMITONES,
    );
    const { floats } = this.parts.memory;
    const from = this.narrowed / 4;
    const to = this.folded / 4;
    const channels = OCTAVES * narrow.columns;
    for (let semitone = 0; semitone < SEMITONES; semitone++) {
      const octave = Math.floor(semitone / PITCH_CLASSES);
      const start = to + (semitone % PITCH_CLASSES) * channels + octave * narrow.columns;
      for (let c = 0; c < narrow.columns; c++)
        floats[start + c] = floats[from + semitone * narrow.width + c]!;
    }
    wrapRow(floats, this.folded, channels);
    const out = { address: this.row, step: fold.width };
    fold.run({ address: this.folded, step: channels }, out, PITCH_CLASSES, { rectify: true });
    this.path.push({ address: this.row, step: PITCH_CLASSES * fold.width }, 1);
  }

  private say({ address, step }: RowBlock, rows: number): void {
    const { perClass, overall } = this;
    const { floats } = this.parts.memory;
    for (let row = 0; row < rows; row++) {
      const x = { address: address + 4 * row * step, step: perClass.terms };
      perClass.run(x, { address: this.said, step: perClass.width }, PITCH_CLASSES);
      for (let c = 0; c < perClass.terms; c++) {
        let sum = 0;
        for (let p = 0; p < PITCH_CLASSES; p++) sum += floats[x.address / 4 + p * x.step + c]!;
        floats[this.mean / 4 + c] = sum / PITCH_CLASSES;
      }
      const mean = { address: this.mean, step: overall.terms };
      overall.run(mean, { address: this.saidOverall, step: overall.width }, 1);
      const qualities = perClass.columns - 1;
      const chords = new Float32Array(PITCH_CLASSES * qualities + 1);
      const bass = new Float32Array(PITCH_CLASSES + 1);
      for (let p = 0; p < PITCH_CLASSES; p++) {
        const start = this.said / 4 + p * perClass.width;
        for (let q = 0; q < qualities; q++) chords[p * qualities + q] = floats[start + q]!;
        bass[p] = floats[start + qualities]!;
      }
      chords[PITCH_CLASSES * qualities] = floats[this.saidOverall / 4]!;
      bass[PITCH_CLASSES] = floats[this.saidOverall / 4 + 1]!;
      this.onStep({ chords: logSoftmax(chords), bass: logSoftmax(bass) });
    }
  }
}

function logSoftmax(values: Float32Array): Float32Array {
  const top = values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
  const total = values.reduce((sum, value) => sum + Math.exp(value - top), 0);
  return values.map((value) => value - top - Math.log(total));
}
