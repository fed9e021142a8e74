import type { LogFrequencyScale } from "@/lib/dsp/logFrequency";
import { type LeastSquaresOptions, nonNegativeLeastSquares } from "@/lib/dsp/nonNegativeLeastSquares";
import { innerProduct, type NoteRow, noteRow, projection } from "@/lib/hearing/noteActivation";
import type { Cents, Midi } from "@/lib/units/quantities";
import { DICTIONARY, SOLVING, SOLVING_WITHOUT } from "./parameters";

/** How a spectrum adds up from notes. */
export interface NoteMixture {
  /** One a row of the dictionary, 0 up. */
  coefficients: Float64Array;
  /** Inner products of the rows with the spectrum. */
  goal: Float64Array;
  /** The same with what the coefficients leave of it. */
  rest: Float64Array;
}

const { lowestMidi, highestMidi, detunings, partials } = DICTIONARY;

/**
 * Every note from E1 to C7, each in tune and a little off either way, as rows of partials with which a spectrum is
 * explained as a whole, so that what the rest of a band plays is taken for what it is. Non-negative least squares over
 * note templates as in M. Mauch and S. Dixon, ISMIR 2010; several templates a note as in the dictionaries of
 * S. A. Abdallah and M. D. Plumbley, "Polyphonic music transcription by non-negative sparse coding of power spectra",
 * ISMIR 2004.
 */
export class NoteDictionary {
  private readonly rows: NoteRow[] = [];
  private readonly gram: Float64Array;

  constructor(scale: LogFrequencyScale) {
    for (let midi: Midi = lowestMidi; midi <= highestMidi; midi++)
      for (const detuning of detunings) this.rows.push(noteRow(scale, midi + detuning, partials));
    const size = this.rows.length;
    this.gram = new Float64Array(size * size);
    for (let a = 0; a < size; a++) {
      for (let b = a; b < size; b++) {
        const product = innerProduct(this.rows[a]!, this.rows[b]!);
        this.gram[a * size + b] = product;
        this.gram[b * size + a] = product;
      }
    }
  }

  /** @param spectrum standardised, one value a bin of the scale */
  solve(spectrum: Float64Array): NoteMixture {
    const goal = Float64Array.from(this.rows, (row) => projection(row, spectrum));
    const coefficients = new Float64Array(goal.length);
    const rest = goal.slice();
    this.descend(rest, coefficients, SOLVING);
    return { coefficients, goal, rest };
  }

  /** The same spectrum without one note. */
  solveWithout({ coefficients, goal, rest }: NoteMixture, midi: Midi): NoteMixture {
    const size = this.rows.length;
    const barred = new Uint8Array(size);
    const without = { coefficients: coefficients.slice(), goal, rest: rest.slice() };
    const first = (midi - lowestMidi) * detunings.length;
    for (let n = first; n < first + detunings.length; n++) {
      barred[n] = 1;
      const taken = without.coefficients[n]!;
      without.coefficients[n] = 0;
      if (taken > 0) for (let m = 0; m < size; m++) without.rest[m]! += taken * this.gram[n * size + m]!;
    }
    this.descend(without.rest, without.coefficients, { ...SOLVING_WITHOUT, barred });
    return without;
  }

  /** How much of a note is in a mixture; 0 outside of the dictionary. */
  activation({ coefficients }: NoteMixture, midi: Midi): number {
    if (midi < lowestMidi || midi > highestMidi) return 0;
    const first = (midi - lowestMidi) * detunings.length;
    return detunings.reduce<number>((sum, _, i) => sum + coefficients[first + i]!, 0);
  }

  /** How far a note of a mixture stands off the grid; 0 where it is not in it. */
  offCents({ coefficients }: NoteMixture, midi: Midi): Cents {
    const first = (midi - lowestMidi) * detunings.length;
    let [sum, moment] = [0, 0];
    detunings.forEach((detuning, i) => {
      sum += coefficients[first + i] ?? 0;
      moment += detuning * (coefficients[first + i] ?? 0);
    });
    return sum > 0 ? (100 * moment) / sum : 0;
  }

  private descend(rest: Float64Array, into: Float64Array, options: LeastSquaresOptions): void {
    nonNegativeLeastSquares(this.gram, rest, into, options);
  }
}

/** How much of the energy of its spectrum a mixture explains: |x|^2 less the square of what is left. */
export function explained({ coefficients, goal, rest }: NoteMixture): number {
  let sum = 0;
  for (let n = 0; n < coefficients.length; n++) sum += coefficients[n]! * (goal[n]! + rest[n]!);
  return sum;
}
