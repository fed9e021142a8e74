import { type BankShifts, BLOCKS_BEFORE_CONTEXT, CONTEXT_DILATIONS, TRUNK_BLOCKS } from "../layout";
import { GlobalContext } from "./GlobalContext";
import { HarmonicInput } from "./HarmonicInput";
import { InvertedResidual } from "./InvertedResidual";
import { checkRows, type NetworkParts } from "./NetworkParts";
import type { RowSink } from "./RowSink";

/** Half of the taps over time of the input layer and of the blocks. */
const INPUT_REACH = 1;
const TAP_REACH = 2;

/** What both networks do before their heads: harmonics laid over one another, six blocks, and all semitones at once. */
export class Trunk {
  /** Frames by which what is given on comes later than the features. */
  static readonly delay =
    INPUT_REACH +
    TAP_REACH * total([...TRUNK_BLOCKS.map((block) => block.timeDilation), ...CONTEXT_DILATIONS]);
  private readonly parts: NetworkParts;
  private readonly input: HarmonicInput;

  /**
   * @param shifts bins by which each spectrum of a frame is moved
   * @param heads given rows of 96 semitones, channels innermost
   */
  constructor(parts: NetworkParts, shifts: BankShifts, heads: RowSink) {
    this.parts = parts;
    let next = heads;
    for (let i = TRUNK_BLOCKS.length - 1; i >= 0; i--) {
      if (i === BLOCKS_BEFORE_CONTEXT - 1) next = new GlobalContext(parts, next);
      const shape = { ...TRUNK_BLOCKS[i]!, rectify: i === TRUNK_BLOCKS.length - 1 };
      next = new InvertedResidual(parts, `block${i}`, shape, next);
    }
    this.input = new HarmonicInput(parts, shifts, next);
  }

  /**
   * @param features rows of the spectra of a frame, one after another
   * @param rows how many, at most as many as the parts were made for
   */
  push(features: Float32Array, rows: number): void {
    checkRows(this.parts, rows);
    this.input.push(features, rows);
  }

  /** The record is over: everything still owed is said, and all is as new. */
  finish(): void {
    this.input.finish();
  }
}

function total(dilations: readonly number[]): number {
  return dilations.reduce((sum, dilation) => sum + dilation, 0);
}
