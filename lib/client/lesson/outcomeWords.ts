import type { ShownGuess } from "@/lib/document/records/guesses";
import { comparisonWords } from "@/lib/lesson/comparisonWords";
import type { LaneValue } from "@/lib/lesson/GuessValue";
import { printed } from "../format/format";
import { guessText } from "./guessText";

/** How a guess compared, and with what: nothing before it was uncovered. */
export function outcomeWords(guess: ShownGuess): string {
  if (!guess.outcome) return "";
  const { comparison, answer } = guess.outcome;
  return answer ? `${comparisonWords(comparison)}: ${answerText(guess)}` : comparisonWords(comparison);
}

/** What stood there when a guess was uncovered. */
export function answerText({ lane, outcome }: ShownGuess): string {
  if (!outcome?.answer) return "nothing written";
  return printed(guessText({ lane, value: outcome.answer } as LaneValue, null));
}
