import { CHORD_STATES } from "./chordVocabulary";
import { VOCABULARY } from "./harmonyParameters";

/** Log prior of each chord state before a key is known, summing to 1. */
export function plainLogPrior(): Float64Array {
  return normalisedLog(
    CHORD_STATES.map(({ chord }) =>
      chord ? chord.type.logPrior - Math.log(12) : VOCABULARY.noChordLogPrior,
    ),
  );
}

function normalisedLog(values: number[]): Float64Array {
  const total = values.reduce((sum, value) => sum + Math.exp(value), 0);
  return Float64Array.from(values, (value) => value - Math.log(total));
}
