import type { ShownQuestion } from "@/lib/document/records/questions";
import type { Seconds } from "@/lib/units/quantities";
import { studyRows } from "../song/studyRows";

/** A box takes at least so much room, about what its sign takes; more where a finger has to meet it. In text of the usual size. */
export const LEAST_PX = 28;
/** How much of the lane the box of several questions takes. */
const SEVERAL_PX = 108;
/** What overlaps by the record itself, and not for want of room, is told by boxes of this length. */
const APART_SEC = 1;

/** One box of the lane: a question in its row, or several for which there is no room. */
export type AskedBox =
  | { kind: "one"; startSec: Seconds; endSec: Seconds; question: ShownQuestion; row: number }
  | { kind: "several"; startSec: Seconds; endSec: Seconds; questions: readonly ShownQuestion[] };

/** How many rows the lane has, 1 to 3: at every zoom the same, so that lanes below do not jump. */
export function rowsOf(questions: readonly ShownQuestion[]): number {
  return 1 + Math.max(0, ...studyRows(questions, APART_SEC));
}

/**
 * The boxes of the lane at one zoom. Questions that touch, drawn no narrower than {@link LEAST_PX}, are laid in rows; where
 * these do not do, they stand together in boxes that say how many they are.
 * @param questions in order of time
 * @param scale how much larger than usual text is
 * @returns in order of time; none overlaps another in its row
 */
export function askedLayout(
  questions: readonly ShownQuestion[],
  { pxPerSec, rows, scale }: { pxPerSec: number; rows: number; scale: number },
): AskedBox[] {
  const leastSec = (LEAST_PX * scale) / pxPerSec;
  const severalSec = (SEVERAL_PX * scale) / pxPerSec;
  return groupsOf(questions, leastSec).flatMap(({ members, endSec }) => {
    const lying = studyRows(members, leastSec);
    if (isApart(members, lying, leastSec, rows))
      return members.map((question, index): AskedBox => {
        const { startSec } = question;
        const end = Math.max(question.endSec, startSec + leastSec);
        return { kind: "one", startSec, endSec: end, question, row: lying[index] ?? 0 };
      });
    return severals(members, endSec, severalSec);
  });
}

/** Runs of questions of which each begins before all before it have ended. */
function groupsOf(questions: readonly ShownQuestion[], leastSec: Seconds) {
  const groups: { members: ShownQuestion[]; endSec: Seconds }[] = [];
  for (const question of questions) {
    const endSec = Math.max(question.endSec, question.startSec + leastSec);
    const last = groups.at(-1);
    if (!last || question.startSec >= last.endSec) groups.push({ members: [question], endSec });
    else {
      last.members.push(question);
      last.endSec = Math.max(last.endSec, endSec);
    }
  }
  return groups;
}

/** Whether no two lie over one another in their rows, and no more rows are wanted than there are. */
function isApart(
  members: readonly ShownQuestion[],
  lying: readonly number[],
  leastSec: Seconds,
  rows: number,
): boolean {
  const endsSec: Seconds[] = [];
  return members.every(({ startSec, endSec }, index) => {
    const row = lying[index] ?? 0;
    const isFree = row < rows && (endsSec[row] ?? 0) <= startSec + 1e-6;
    endsSec[row] = Math.max(endSec, startSec + leastSec);
    return isFree;
  });
}

function severals(members: readonly ShownQuestion[], untilSec: Seconds, severalSec: Seconds): AskedBox[] {
  const boxes: { startSec: Seconds; endSec: Seconds; questions: ShownQuestion[] }[] = [];
  for (const question of members) {
    const last = boxes.at(-1);
    if (last && question.startSec < last.endSec) last.questions.push(question);
    else {
      const { startSec } = question;
      boxes.push({ startSec, endSec: Math.min(untilSec, startSec + severalSec), questions: [question] });
    }
  }
  return boxes.map((box) => ({ kind: "several", ...box }));
}
