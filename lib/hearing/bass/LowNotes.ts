import { LOWEST_MIDI, type NoteMap } from "../learned/layout";
import type { NoteFrame } from "../learned/stages/NoteHead";
import { BASS_PITCHES, LOWEST_BASS } from "./BassEvidence";

/** Rows that share a block of memory: one of its own for each would cost more than what it holds. */
const ROWS_TOGETHER = 1024;

/**
 * Gathers, frame by frame, what a learned ear says of the pitches of a bass: of the bass line alone where its weights
 * tell that apart, else of all that sounds so low.
 */
export class LowNotes {
  /** The semitones that are gathered, as the network counts them. */
  static readonly range = { from: LOWEST_BASS - LOWEST_MIDI, to: LOWEST_BASS - LOWEST_MIDI + BASS_PITCHES };
  /** Probability that a note begins, and that it sounds, at each semitone from {@link LOWEST_BASS}; a row a frame. */
  readonly onset: Float32Array[] = [];
  readonly sounding: Float32Array[] = [];
  private readonly onsetMap: number;
  private readonly soundingMap: number;
  /** Where the next rows go. */
  private room = new Float32Array(0);

  /** @param noteMaps what the ear says of notes, by place */
  constructor(noteMaps: readonly NoteMap[]) {
    const tellsBass = noteMaps.includes("bass") && noteMaps.includes("bassOnset");
    this.onsetMap = noteMaps.indexOf(tellsBass ? "bassOnset" : "onset");
    this.soundingMap = noteMaps.indexOf(tellsBass ? "bass" : "frame");
  }

  /** Takes the next frame; to be called in order. */
  readonly hear = ({ values, step }: NoteFrame): void => {
    this.onset.push(this.row(values, step, this.onsetMap));
    this.sounding.push(this.row(values, step, this.soundingMap));
  };

  private row(values: Float32Array, step: number, map: number): Float32Array {
    if (this.room.length < BASS_PITCHES) this.room = new Float32Array(ROWS_TOGETHER * BASS_PITCHES);
    const row = this.room.subarray(0, BASS_PITCHES);
    this.room = this.room.subarray(BASS_PITCHES);
    const first = LowNotes.range.from * step + map;
    for (let p = 0; p < BASS_PITCHES; p++) row[p] = values[first + p * step]!;
    return row;
  }
}
