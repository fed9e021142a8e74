import { EAR_SHIFTS, NOTES_EAR_SHIFTS } from "./layout";
import type { NetworkWeights } from "./NetworkWeights";
import { newParts } from "./stages/NetworkParts";
import { type NoteFrame, NoteHead } from "./stages/NoteHead";
import { Trunk } from "./stages/Trunk";

/** A network of which only the note maps are asked for, run frame by frame as {@link EarNetwork} is. */
export class NotesNetwork {
  private readonly trunk: Trunk;

  /**
   * @param stereo whether the weights are those of the notes ear, which hears the side too; else those of the ear
   * @param onNotes told each frame in order; it is used again for the next
   * @param mostRows most frames given at once
   * @param rounded whether the trunk rounds what it multiplies to 16 bits: as the notes ear does unless said otherwise
   */
  constructor(
    weights: NetworkWeights,
    stereo: boolean,
    onNotes: (frame: NoteFrame) => void,
    mostRows: number,
    rounded = stereo,
  ) {
    const parts = newParts(weights, mostRows, rounded);
    this.trunk = new Trunk(parts, stereo ? NOTES_EAR_SHIFTS : EAR_SHIFTS, new NoteHead(parts, onNotes));
  }

  /**
   * @param features rows of 4 (in stereo) or 2 times 288 numbers, as {@link EarFeatures} gives them
   * @param rows how many, at most `mostRows`
   */
  push(features: Float32Array, rows: number): void {
    this.trunk.push(features, rows);
  }

  /** The record is over: everything still owed is said, and the network is as new. */
  finish(): void {
    this.trunk.finish();
  }
}
