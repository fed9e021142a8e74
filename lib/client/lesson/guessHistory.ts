import type { ShownGuess } from "@/lib/document/records/guesses";
import { isFound } from "@/lib/lesson/comparisonWords";
import { GUESS_LANES, type GuessLane } from "@/lib/lesson/GuessValue";
import type { EpochMs } from "@/lib/units/quantities";

/** How a person's guesses in one lane went within a week. */
export interface GuessWeek {
  /** When the week began, on its Monday. */
  mondayMs: EpochMs;
  lane: GuessLane;
  made: number;
  /** Those that were uncovered where something stood to compare with, and of these those that were right. */
  told: number;
  right: number;
  hints: number;
}

/** How one person's guesses went. */
export interface LearnerGuesses {
  by: string;
  /** The latest week first, lanes in their order; weeks and lanes without a guess are left out. */
  weeks: GuessWeek[];
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
 * How guesses went, person by person, week by week and lane by lane, so that progress is seen.
 * @param mondayOf when the week of a moment began, where the reader is
 * @returns who guessed last first
 */
export function guessWeeks(
  guesses: readonly ShownGuess[],
  mondayOf: (atMs: EpochMs) => EpochMs,
): LearnerGuesses[] {
  const learners = new Map<string, { by: string; lastMs: EpochMs; weeks: Map<string, GuessWeek> }>();
  for (const { atMs, by, lane, outcome, hintCount } of guesses) {
    const learner = learners.get(by) ?? { by, lastMs: atMs, weeks: new Map<string, GuessWeek>() };
    learner.lastMs = Math.max(learner.lastMs, atMs);
    learners.set(by, learner);
    const mondayMs = mondayOf(atMs);
    const key = `${mondayMs} ${lane}`;
    const told = outcome !== null && outcome.comparison !== "none";
    const week = learner.weeks.get(key) ?? { mondayMs, lane, made: 0, told: 0, right: 0, hints: 0 };
    learner.weeks.set(key, {
      ...week,
      made: week.made + 1,
      told: week.told + (told ? 1 : 0),
      right: week.right + (told && isFound(outcome.comparison) ? 1 : 0),
      hints: week.hints + hintCount,
    });
  }
  return [...learners.values()]
    .sort((a, b) => b.lastMs - a.lastMs)
    .map(({ by, weeks }) => ({ by, weeks: [...weeks.values()].sort(byWeekThenLane) }));
}

function byWeekThenLane(a: GuessWeek, b: GuessWeek): number {
  return b.mondayMs - a.mondayMs || GUESS_LANES.indexOf(a.lane) - GUESS_LANES.indexOf(b.lane);
}

/** When the week of a moment began, in the zone of whoever reads: weeks begin on Monday (ISO 8601). */
export function mondayOf(atMs: EpochMs): EpochMs {
  const day = new Date(atMs);
  day.setHours(0, 0, 0, 0);
  day.setDate(day.getDate() - ((day.getDay() + 6) % 7));
  return day.getTime();
}

/** How a lane went in the first and in the latest week in which guesses were uncovered. */
export interface LaneProgress {
  lane: GuessLane;
  first: GuessWeek;
  latest: GuessWeek;
}

/** Lane by lane, where there is something to compare. */
export function laneProgress(weeks: readonly GuessWeek[]): LaneProgress[] {
  return GUESS_LANES.flatMap((lane) => {
    const told = weeks.filter((week) => week.lane === lane && week.told > 0);
    const [latest, first] = [told[0], told.at(-1)];
    return latest && first && latest !== first ? [{ lane, first, latest }] : [];
  });
}
