import { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import { BLOCKS_BEFORE_CONTEXT, CONTEXT_DILATIONS, TRUNK_BLOCKS } from "./layout";
import type { NetworkWeights } from "./NetworkWeights";
import { networkKernels } from "./simd/networkKernels";
import { BeatHead, type BeatListener } from "./stages/BeatHead";
import { ChordHead, type ChordStep } from "./stages/ChordHead";
import { GlobalContext } from "./stages/GlobalContext";
import { HarmonicInput } from "./stages/HarmonicInput";
import { InvertedResidual } from "./stages/InvertedResidual";
import type { NetworkParts } from "./stages/NetworkParts";
import { type NoteFrame, NoteHead, type SemitoneRange } from "./stages/NoteHead";
import type { RowSink } from "./stages/RowSink";

/** Half of the taps over time of the input layer and of the blocks. */
const INPUT_REACH = 1;
const TAP_REACH = 2;

/** Who is told what the network says, in the order of time. */
export interface EarListener {
  /** Notes are not worked out where nobody asks for them. */
  onNotes?: (frame: NoteFrame) => void;
  /** Semitones of which notes are told; all unless said otherwise. */
  noteRange?: SemitoneRange;
  onChords(step: ChordStep): void;
  onBeat: BeatListener;
}

/**
 * The network, run frame by frame: features in, what the heads say out, each layer holding just the rows about
 * the frames that it still owes. What is said does not depend on how many frames come at once, and memory not
 * on the length of the record.
 */
export class EarNetwork {
  private readonly mostRows: number;
  private readonly input: HarmonicInput;
  private readonly beats: BeatHead;

  /** @param mostRows most frames given at once */
  constructor(weights: NetworkWeights, listener: EarListener, mostRows: number) {
    const memory = new KernelMemory();
    const parts: NetworkParts = { memory, kernels: networkKernels(memory), weights, mostRows };
    this.mostRows = mostRows;
    const dilations = [...TRUNK_BLOCKS.map(({ timeDilation }) => timeDilation), ...CONTEXT_DILATIONS];
    const delay = INPUT_REACH + TAP_REACH * dilations.reduce((sum, dilation) => sum + dilation, 0);
    this.beats = new BeatHead(parts, delay, listener.onBeat);
    const heads: RowSink[] = [new ChordHead(parts, listener.onChords), this.beats];
    if (listener.onNotes) heads.push(new NoteHead(parts, listener.onNotes, listener.noteRange));
    let next: RowSink = {
      push: (block, rows) => {
        for (const head of heads) head.push(block, rows);
      },
      finish: () => {
        for (const head of heads) head.finish();
      },
    };
    for (let i = TRUNK_BLOCKS.length - 1; i >= 0; i--) {
      if (i === BLOCKS_BEFORE_CONTEXT - 1) next = new GlobalContext(parts, next);
      const shape = { ...TRUNK_BLOCKS[i]!, rectify: i === TRUNK_BLOCKS.length - 1 };
      next = new InvertedResidual(parts, `block${i}`, shape, next);
    }
    this.input = new HarmonicInput(parts, next);
  }

  /**
   * @param features rows of 2 times 288 numbers, as {@link EarFeatures} gives them
   * @param rows how many, at most `mostRows`
   */
  push(features: Float32Array, rows: number): void {
    if (rows > this.mostRows) throw new RangeError(`At most ${this.mostRows} frames at once, not ${rows}.`);
    this.beats.hearFeatures(features, rows);
    this.input.push(features, rows);
  }

  /** The record is over: everything still owed is said, and the network is as new. */
  finish(): void {
    this.input.finish();
  }
}
