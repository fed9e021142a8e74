import type { Address } from "@/lib/dsp/simd/KernelMemory";
import { fromLogOdds } from "../../logOdds";
import { BEAT_DILATIONS, BINS, BINS_PER_SEMITONE, SEMITONES } from "../layout";
import type { Product, RowBlock } from "../simd/Product";
import { DelayLine } from "./DelayLine";
import { semitoneMajor } from "./GlobalContext";
import { checkRows, type NetworkParts, pointwise } from "./NetworkParts";
import type { RowSink } from "./RowSink";
import { TemporalResidual } from "./TemporalResidual";

/** Probabilities of a beat and of a downbeat at a frame, which stands for 23 ms. */
export type BeatListener = (beat: number, downbeat: number) => void;

/**
 * Beats from the trunk, the short-window spectrum and its rise since the frame before, by dilated blocks over time
 * that see six seconds each way.
 */
export class BeatHead implements RowSink {
  private readonly parts: NetworkParts;
  private readonly scale: number;
  private readonly shift: number;
  private readonly narrow: Product;
  private readonly dense: Product;
  private readonly answer: Product;
  private readonly path: RowSink;
  /** Spectra and their rise, until the trunk has caught up. */
  private readonly waiting: DelayLine;
  private readonly before = new Float32Array(SEMITONES);
  private readonly row: Address;
  private readonly hidden: Address;
  private readonly said: Address;

  /** @param trunkDelay frames by which the trunk's rows come later than the features */
  constructor(parts: NetworkParts, trunkDelay: number, onFrame: BeatListener) {
    const { memory, weights, mostRows } = parts;
    this.parts = parts;
    this.scale = weights.get("input.scale", 1).data[1]!;
    this.shift = weights.get("input.shift", 1).data[1]!;
    this.narrow = pointwise(parts, "beat.in");
    const channels = this.narrow.columns;
    const fromTrunk = semitoneMajor(channels);
    this.dense = pointwise(parts, "beat.dense", (term) =>
      term < channels * SEMITONES ? fromTrunk(term) : term,
    );
    this.answer = pointwise(parts, "beat.out");
    this.waiting = new DelayLine(memory, 2 * SEMITONES, trunkDelay, mostRows);
    this.row = memory.take(this.dense.terms);
    this.hidden = memory.take(mostRows * this.dense.width);
    this.said = memory.take(mostRows * this.answer.width);
    const { width } = this.answer;
    let path: RowSink = {
      push: (block, rows) => {
        this.answer.run(block, { address: this.said, step: width }, rows);
        const { floats } = memory;
        for (let row = 0; row < rows; row++) {
          const at = this.said / 4 + row * width;
          onFrame(fromLogOdds(floats[at]!), fromLogOdds(floats[at + 1]!));
        }
      },
      finish: () => {},
    };
    for (let i = BEAT_DILATIONS.length - 1; i >= 0; i--) {
      path = new TemporalResidual(parts, `beat.time${i}`, BEAT_DILATIONS[i]!, path);
    }
    this.path = path;
  }

  /** Takes the features of frames, ahead of the trunk's rows of the same frames. */
  hearFeatures(features: Float32Array, rows: number): void {
    checkRows(this.parts, rows);
    for (let row = 0; row < rows; row++) {
      const { floats } = this.parts.memory;
      const start = this.waiting.incoming.address / 4;
      const short = (2 * row + 1) * BINS;
      for (let s = 0; s < SEMITONES; s++) {
        let sum = 0;
        for (let bin = 0; bin < BINS_PER_SEMITONE; bin++)
          sum += features[short + BINS_PER_SEMITONE * s + bin]!;
        const value = (this.scale * sum) / BINS_PER_SEMITONE + this.shift;
        floats[start + s] = value;
        floats[start + SEMITONES + s] = Math.max(0, value - this.before[s]!);
        this.before[s] = value;
      }
      this.waiting.advance(1);
    }
  }

  push(block: RowBlock, rows: number): void {
    const { narrow, dense } = this;
    const hidden = { address: this.hidden, step: dense.width };
    for (let row = 0; row < rows; row++) {
      const x = { address: block.address + 4 * row * block.step, step: narrow.terms };
      narrow.run(x, { address: this.row, step: narrow.width }, SEMITONES);
      const { head } = this.waiting;
      const from = head.address / 4 + row * head.step;
      const to = this.row / 4 + SEMITONES * narrow.columns;
      this.parts.memory.floats.copyWithin(to, from, from + head.step);
      dense.run(
        { address: this.row, step: dense.terms },
        { address: hidden.address + 4 * row * hidden.step, step: hidden.step },
        1,
        { rectify: true },
      );
    }
    this.waiting.drop(rows);
    this.path.push(hidden, rows);
  }

  finish(): void {
    this.waiting.reset();
    this.before.fill(0);
    this.path.finish();
  }
}
