import type { ShownGuess } from "@/lib/document/records/guesses";
import { isFound } from "@/lib/lesson/comparisonWords";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import type { EpochMs } from "@/lib/units/quantities";

/** How a person's guesses of one day went. */
export interface GuessDay {
  /** When the first of them was made. */
  atMs: EpochMs;
  by: string;
  made: number;
  /** Those that were uncovered, and of these those that were found. */
  told: number;
  found: number;
  hints: number;
}

/** The guesses of a passage, or of the whole song, the latest first. @param lane null for all */
export function guessesOf(
  guesses: readonly ShownGuess[],
  target: string,
  lane: GuessLane | null,
): ShownGuess[] {
  return guesses
    .filter((guess) => guess.target === target && (lane === null || guess.lane === lane))
    .reverse();
}

/**
 * How guesses went, by day and person, so that progress is seen over weeks.
 * @param dayOf names the day of a moment, where the reader is
 * @returns the latest day first, persons of one day by their first guess
 */
export function guessDays(
  guesses: readonly ShownGuess[],
  dayOf: (atMs: EpochMs) => string,
): (GuessDay & { day: string })[] {
  const days = new Map<string, GuessDay & { day: string }>();
  for (const { atMs, by, outcome, hintCount } of [...guesses].sort((a, b) => a.atMs - b.atMs)) {
    const day = dayOf(atMs);
    const key = `${day} ${by}`;
    const before = days.get(key) ?? { day, atMs, by, made: 0, told: 0, found: 0, hints: 0 };
    days.set(key, {
      ...before,
      made: before.made + 1,
      told: before.told + (outcome ? 1 : 0),
      found: before.found + (outcome && isFound(outcome.comparison) ? 1 : 0),
      hints: before.hints + hintCount,
    });
  }
  return [...days.values()].sort((a, b) => b.atMs - a.atMs);
}
