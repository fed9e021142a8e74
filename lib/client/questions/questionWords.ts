import type { ShownAnswer, ShownQuestion } from "@/lib/document/records/questions";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { placeWords, type SongGrid } from "../axis/songGrid";
import { clockText } from "../format/format";
import { openQuestions } from "./openQuestions";
import { shortened } from "./shortened";

/** A stretch shorter than this is a moment, and has one time. */
const MOMENT_SEC = 0.05;
/** What stands for the words of a question that its author took back. */
export const TAKEN_BACK = "(taken back)";

/** A time to a tenth of a second, `0:06.9`. */
function tenthsText(timeSec: number): string {
  return clockText(Math.round(timeSec * 10) / 10, true).slice(0, -1);
}

/** Where a stretch lies, `0:06.9–0:08.2`; a moment has one time. */
export function stretchTimes({ startSec, endSec }: HeardStretch): string {
  const start = tenthsText(startSec);
  return endSec - startSec < MOMENT_SEC ? start : `${start}–${tenthsText(endSec)}`;
}

/** The bar in which a stretch begins, `bar 2`; empty where no beats are known. */
export function barName({ startSec }: HeardStretch, grid: SongGrid | null): string {
  return placeWords(grid, startSec).replace(/ beat \d+$/, "");
}

/** What a question asks, as short as its box. */
export function firstWords({ words, isTakenBack }: ShownQuestion): string {
  return isTakenBack ? TAKEN_BACK : shortened(words);
}

/** "no answer yet", "1 answer", "3 answers, 1 since it was settled". */
export function answersWords(answers: readonly ShownAnswer[]): string {
  if (answers.length === 0) return "no answer yet";
  const since = answers.filter(({ isSinceSettled }) => isSinceSettled).length;
  const count = answers.length === 1 ? "1 answer" : `${answers.length} answers`;
  return since === 0 ? count : `${count}, ${since} since it was settled`;
}

/** A question in one line, for those who hear the page. */
export function questionLine(
  question: ShownQuestion,
  grid: SongGrid | null,
  nameOf: (userId: string) => string,
): string {
  const how = question.settled ? "Settled question" : "Open question";
  const where = placeWords(grid, question.startSec) || stretchTimes(question);
  return `${how} of ${nameOf(question.by)}, ${where}: ${firstWords(question)}, ${answersWords(question.answers)}`;
}

/** "5 questions", "1 question". */
export function countWords(count: number): string {
  return count === 1 ? "1 question" : `${count} questions`;
}

/** "2 open on this passage", "Nothing open in this song". */
export function openWords(questions: readonly ShownQuestion[], where: string): string {
  const open = openQuestions(questions).length;
  return `${open === 0 ? "Nothing" : open} open ${where}`;
}
