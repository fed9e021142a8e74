import { binCount, binHertz, binWindowLength, type LogFrequencyScale } from "@/lib/dsp/logFrequency";
import { nonNegativeLeastSquares } from "@/lib/dsp/nonNegativeLeastSquares";
import { runningMean } from "@/lib/dsp/running";
import { hannResponse } from "@/lib/dsp/windows";
import { NOTES } from "./parameters";

/**
 * Approximate transcription: which notes, each with a fixed row of falling partials, best add up to a
 * spectrum. M. Mauch and S. Dixon, "Approximate note transcription for the improved identification of difficult
 * chords", ISMIR 2010: local standardisation of the log-frequency spectrum, then non-negative least squares
 * over a note dictionary with partials of amplitude s^(k - 1).
 */
export class NoteActivation {
  /** MIDI pitch of the first activation; one a semitone from there. */
  readonly lowestMidi = NOTES.lowestMidi;
  readonly noteCount = NOTES.highestMidi - NOTES.lowestMidi + 1;
  private readonly binsPerSemitone: number;
  private readonly notes: NoteRow[];
  /** Inner products of the rows, noteCount squared. */
  private readonly gram: Float64Array;

  constructor(scale: LogFrequencyScale) {
    this.binsPerSemitone = scale.binsPerSemitone;
    this.notes = Array.from({ length: this.noteCount }, (_, n) => noteRow(scale, this.lowestMidi + n));
    this.gram = new Float64Array(this.noteCount * this.noteCount);
    for (let a = 0; a < this.noteCount; a++) {
      for (let b = 0; b < this.noteCount; b++) {
        this.gram[a * this.noteCount + b] = innerProduct(this.notes[a]!, this.notes[b]!);
      }
    }
  }

  /**
   * Activations of the notes in one spectrum, 0 up; 1 is about one plain note at the local level.
   * @param spectrum magnitudes, one a bin of the scale
   */
  solve(spectrum: Float64Array): Float64Array {
    const target = standardise(spectrum, this.binsPerSemitone);
    const goal = Float64Array.from(this.notes, (row) => projection(row, target));
    const activation = new Float64Array(this.noteCount);
    nonNegativeLeastSquares(this.gram, goal, activation, NOTES);
    return activation;
  }
}

/**
 * Takes off the local mean of a log-frequency spectrum and divides by a power of the local spread, both over half an
 * octave each way; what is below the mean is 0 (Mauch & Dixon 2010).
 */
export function standardise(spectrum: Float64Array, binsPerSemitone: number): Float64Array {
  const halfOctave = 6 * binsPerSemitone;
  const mean = runningMean(spectrum, halfOctave);
  const squares = runningMean(
    spectrum.map((value) => value * value),
    halfOctave,
  );
  const result = new Float64Array(spectrum.length);
  for (let k = 0; k < result.length; k++) {
    const above = spectrum[k]! - mean[k]!;
    if (above <= 0) continue;
    const spread = Math.sqrt(Math.max(0, squares[k]! - mean[k]! ** 2));
    result[k] = above / (spread ** NOTES.whitening + NOTES.silence);
  }
  return result;
}

/** A row of a note dictionary: its first bin, and its weights from there, of unit length. */
export interface NoteRow {
  firstBin: number;
  weights: Float64Array;
}

/** The spectrum of one ideal note on the scale, at any pitch: each partial seen through each bin's own Hann window. */
export function noteRow(scale: LogFrequencyScale, midi: number, partials: number = NOTES.partials): NoteRow {
  const row = new Float64Array(binCount(scale));
  const middle = (scale.binsPerSemitone - 1) / 2;
  const fundamentalBin = (midi - scale.lowestMidi) * scale.binsPerSemitone + middle;
  const fundamentalHz = binHertz(scale, fundamentalBin);
  for (let partial = 1; partial <= partials; partial++) {
    const hz = partial * fundamentalHz;
    const centre = fundamentalBin + 12 * scale.binsPerSemitone * Math.log2(partial);
    const reach = NOTES.partialReachSemitones * scale.binsPerSemitone;
    for (let k = Math.max(0, Math.ceil(centre - reach)); k < row.length && k <= centre + reach; k++) {
      const offset = ((hz - binHertz(scale, k)) * binWindowLength(scale, k)) / scale.sampleRateHz;
      if (Math.abs(offset) < 2) row[k]! += NOTES.partialDecay ** (partial - 1) * hannResponse(offset);
    }
  }
  const norm = Math.sqrt(row.reduce((sum, value) => sum + value * value, 0));
  const first = row.findIndex((value) => value > 0);
  const last = row.findLastIndex((value) => value > 0);
  return { firstBin: first, weights: row.slice(first, last + 1).map((value) => value / norm) };
}

/** Inner product of a row with a spectrum. */
export function projection({ firstBin, weights }: NoteRow, spectrum: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < weights.length; k++) sum += weights[k]! * spectrum[firstBin + k]!;
  return sum;
}

/** Inner product of two rows. */
export function innerProduct(a: NoteRow, b: NoteRow): number {
  const first = Math.max(a.firstBin, b.firstBin);
  const last = Math.min(a.firstBin + a.weights.length, b.firstBin + b.weights.length);
  let sum = 0;
  for (let k = first; k < last; k++) sum += a.weights[k - a.firstBin]! * b.weights[k - b.firstBin]!;
  return sum;
}
