import type { ShownQuestion } from "@/lib/document/records/questions";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { withinStretch } from "../axis/withinStretch";

/** The open ones of each list that was asked about; a list is never changed, only made anew. */
const openOf = new WeakMap<readonly ShownQuestion[], ShownQuestion[]>();

/** The questions of a list that are not settled, in its order; for one list always the same. */
export function openQuestions(questions: readonly ShownQuestion[]): ShownQuestion[] {
  const known = openOf.get(questions);
  if (known) return known;
  const open = questions.filter(({ settled }) => !settled);
  openOf.set(questions, open);
  return open;
}

/** The questions that lie on a stretch; one that only touches it does not. */
export function questionsOn<Q extends HeardStretch>(
  questions: readonly Q[],
  { startSec, endSec }: HeardStretch,
): Q[] {
  return withinStretch(questions, startSec, endSec).filter(
    (each) => each.endSec > startSec + 0.005 && each.startSec < endSec - 0.005,
  );
}

/** How many questions are open on a stretch. */
export function openCount(questions: readonly ShownQuestion[], stretch: HeardStretch): number {
  return questionsOn(openQuestions(questions), stretch).length;
}

/** "2 open questions", "1 open question". */
export function openCountWords(count: number): string {
  return count === 1 ? "1 open question" : `${count} open questions`;
}
