import { EAR_SHIFTS } from "./layout";
import type { NetworkWeights } from "./NetworkWeights";
import { BeatHead, type BeatListener } from "./stages/BeatHead";
import { ChordHead, type ChordStep } from "./stages/ChordHead";
import { newParts } from "./stages/NetworkParts";
import { type NoteFrame, NoteHead, type SemitoneRange } from "./stages/NoteHead";
import { toAll } from "./stages/RowSink";
import { Trunk } from "./stages/Trunk";

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
 * The ear's network, run frame by frame: features in, what the heads say out, each layer holding just the rows about
 * the frames that it still owes. What is said does not depend on how many frames come at once, and memory not
 * on the length of the record.
 */
export class EarNetwork {
  private readonly trunk: Trunk;
  private readonly beats: BeatHead;

  /** @param mostRows most frames given at once */
  constructor(weights: NetworkWeights, listener: EarListener, mostRows: number) {
    const parts = newParts(weights, mostRows, false);
    this.beats = new BeatHead(parts, Trunk.delay, listener.onBeat);
    const heads = [new ChordHead(parts, listener.onChords), this.beats];
    const { onNotes, noteRange } = listener;
    this.trunk = new Trunk(
      parts,
      EAR_SHIFTS,
      toAll(onNotes ? [...heads, new NoteHead(parts, onNotes, noteRange)] : heads),
    );
  }

  /**
   * @param features rows of 2 times 288 numbers, as {@link EarFeatures} gives them
   * @param rows how many, at most `mostRows`
   */
  push(features: Float32Array, rows: number): void {
    this.beats.hearFeatures(features, rows);
    this.trunk.push(features, rows);
  }

  /** The record is over: everything still owed is said, and the network is as new. */
  finish(): void {
    this.trunk.finish();
  }
}
