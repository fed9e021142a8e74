import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import { EarFeatures } from "./EarFeatures";
import { type FrameWatcher, feedFrames, ROWS_AT_ONCE } from "./feedFrames";
import type { NoteMap } from "./layout";
import type { NetworkWeights } from "./NetworkWeights";
import { NotesNetwork } from "./NotesNetwork";
import type { NoteFrame } from "./stages/NoteHead";

/** An ear for notes alone. */
export class NotesEar {
  /** Told apart in stored results. */
  readonly version: string;
  /** What is said of notes, by place in a {@link NoteFrame}. */
  readonly noteMaps: readonly NoteMap[];
  /** Whether the weights are those of the notes ear, which hears the side too; else those of the ear. */
  readonly stereo: boolean;
  private readonly weights: NetworkWeights;

  constructor(version: string, weights: NetworkWeights, stereo: boolean) {
    this.version = version;
    this.noteMaps = weights.noteMaps;
    this.weights = weights;
    this.stereo = stereo;
  }

  /**
   * Runs the network over a record.
   * @param sound at HEARING_RATE_HZ, root-mean-square level 0.1 of what the channels share
   * @param onNotes told the note maps of each frame, in order; frame i sounds at {@link frameSec}(i). The frame given is
   * used again for the next, so take from it what is to be kept
   * @param rowsAtOnce frames in one go; what is said does not depend on it
   */
  listen(
    sound: StereoSignal,
    onNotes: (frame: NoteFrame) => void,
    onFrame?: FrameWatcher,
    rowsAtOnce = ROWS_AT_ONCE,
  ): void {
    const { weights, stereo } = this;
    const features = new EarFeatures(sound, rowsAtOnce, stereo);
    feedFrames(features, new NotesNetwork(weights, stereo, onNotes, rowsAtOnce), onFrame);
  }
}
