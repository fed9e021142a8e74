import type { Signal } from "@/lib/dsp/Signal";
import { EarFeatures } from "./EarFeatures";
import { EarNetwork } from "./EarNetwork";
import { type FrameWatcher, feedFrames, ROWS_AT_ONCE } from "./feedFrames";
import type { NoteMap } from "./layout";
import type { NetworkWeights } from "./NetworkWeights";
import { NotesEar } from "./NotesEar";
import type { ChordStep } from "./stages/ChordHead";
import type { NoteFrame, SemitoneRange } from "./stages/NoteHead";

/** What the network says of a record. Frame i sounds at {@link frameSec}(i); chord step i spans four frames from 4 i. */
export interface LearnedEvidence {
  /** Probability of a beat, and of a downbeat, at each frame. */
  beat: Float32Array;
  downbeat: Float32Array;
  chordSteps: ChordStep[];
  /** Chord qualities in the order of the classes of each root. */
  qualities: readonly string[];
}

/** How to listen. */
export interface ListenOptions {
  /**
   * Told the note maps of each frame, in order; frame i sounds at {@link frameSec}(i). The frame given is used again
   * for the next, so take from it what is to be kept. Without this, notes are not worked out.
   */
  onNotes?: (frame: NoteFrame) => void;
  /** Semitones of which notes are worked out; all unless said otherwise, and others are then 0. */
  noteRange?: SemitoneRange;
  /** Frames in one go; the answer does not depend on it. */
  rowsAtOnce?: number;
}

/** The ear with trained weights: it hears beats, chords and bass, and notes where there is no ear of their own for them. */
export class LearnedEar {
  /** Told apart in stored results. */
  readonly version: string;
  /** What is said of notes, by place in a {@link NoteFrame}. */
  readonly noteMaps: readonly NoteMap[];
  /** Hears notes with these weights. */
  readonly notesEar: NotesEar;
  private readonly weights: NetworkWeights;
  private readonly qualities: readonly string[];

  constructor(version: string, weights: NetworkWeights, qualities: readonly string[]) {
    this.version = version;
    this.weights = weights;
    this.qualities = qualities;
    this.noteMaps = weights.noteMaps;
    this.notesEar = new NotesEar(version, weights, false);
  }

  /**
   * Runs the network over a record.
   * @param signal at HEARING_RATE_HZ, root-mean-square level 0.1
   */
  listen(
    signal: Signal,
    onFrame?: FrameWatcher,
    { onNotes, noteRange, rowsAtOnce = ROWS_AT_ONCE }: ListenOptions = {},
  ): LearnedEvidence {
    const features = new EarFeatures({ signal, side: null }, rowsAtOnce, false);
    const { count } = features;
    const beat = new Float32Array(count);
    const downbeat = new Float32Array(count);
    const chordSteps: ChordStep[] = [];
    let said = 0;
    const network = new EarNetwork(
      this.weights,
      {
        ...(onNotes && { onNotes, noteRange }),
        onChords: (step) => chordSteps.push(step),
        onBeat: (onBeat, onDownbeat) => {
          beat[said] = onBeat;
          downbeat[said] = onDownbeat;
          said += 1;
        },
      },
      rowsAtOnce,
    );
    feedFrames(features, network, onFrame);
    return { beat, downbeat, chordSteps, qualities: this.qualities };
  }
}
