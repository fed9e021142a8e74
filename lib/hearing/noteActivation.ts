import { binCount, binHertz, binWindowLength, type LogFrequencyScale } from "@/lib/dsp/logFrequency";
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
  private readonly bins: number;
  private readonly halfOctave: number;
  /** One row a note: its first bin, and its weights from there, of unit length. */
  private readonly notes: { firstBin: number; weights: Float64Array }[];
  /** Inner products of the rows, noteCount squared. */
  private readonly gram: Float64Array;

  constructor(scale: LogFrequencyScale) {
    this.bins = binCount(scale);
    this.halfOctave = 6 * scale.binsPerSemitone;
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
    const target = this.standardise(spectrum);
    const goal = Float64Array.from(this.notes, ({ firstBin, weights }) => {
      let sum = 0;
      for (let k = 0; k < weights.length; k++) sum += weights[k]! * target[firstBin + k]!;
      return sum;
    });
    const activation = new Float64Array(this.noteCount);
    // What is left of `goal` once the activations so far are taken off: goal - gram * activation.
    const rest = goal.slice();
    for (let sweep = 0; sweep < NOTES.sweeps; sweep++) {
      let largest = 0;
      for (let n = 0; n < this.noteCount; n++) {
        const row = n * this.noteCount;
        const next = Math.max(0, activation[n]! + (rest[n]! - NOTES.sparsity) / this.gram[row + n]!);
        const step = next - activation[n]!;
        if (step === 0) continue;
        activation[n] = next;
        largest = Math.max(largest, Math.abs(step));
        for (let m = 0; m < this.noteCount; m++) rest[m]! -= step * this.gram[row + m]!;
      }
      if (largest < NOTES.tolerance) break;
    }
    return activation;
  }

  /** Takes off the local mean and divides by the local spread over half an octave each way; what is below the mean is 0. */
  private standardise(spectrum: Float64Array): Float64Array {
    const mean = runningMean(spectrum, this.halfOctave);
    const squares = runningMean(
      spectrum.map((value) => value * value),
      this.halfOctave,
    );
    const result = new Float64Array(this.bins);
    for (let k = 0; k < this.bins; k++) {
      const above = spectrum[k]! - mean[k]!;
      if (above <= 0) continue;
      const spread = Math.sqrt(Math.max(0, squares[k]! - mean[k]! ** 2));
      result[k] = above / (spread ** NOTES.whitening + NOTES.silence);
    }
    return result;
  }
}

/** The spectrum of one ideal note on the scale: each partial seen through each bin's own Hann window. */
function noteRow(scale: LogFrequencyScale, midi: number): { firstBin: number; weights: Float64Array } {
  const row = new Float64Array(binCount(scale));
  const middle = (scale.binsPerSemitone - 1) / 2;
  const fundamentalBin = (midi - scale.lowestMidi) * scale.binsPerSemitone + middle;
  const fundamentalHz = binHertz(scale, fundamentalBin);
  for (let partial = 1; partial <= NOTES.partials; partial++) {
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

function innerProduct(
  a: { firstBin: number; weights: Float64Array },
  b: { firstBin: number; weights: Float64Array },
): number {
  const first = Math.max(a.firstBin, b.firstBin);
  const last = Math.min(a.firstBin + a.weights.length, b.firstBin + b.weights.length);
  let sum = 0;
  for (let k = first; k < last; k++) sum += a.weights[k - a.firstBin]! * b.weights[k - b.firstBin]!;
  return sum;
}
