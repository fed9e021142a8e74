import type { ShownAnswer, ShownQuestion } from "@/lib/document/records/questions";

/** A question as the page has it, open and without answers unless told otherwise. */
export function question(changed: Partial<ShownQuestion> = {}): ShownQuestion {
  return {
    id: "q",
    by: "ines",
    atMs: 1,
    words: "Pedals or slide?",
    rewordedAtMs: null,
    startSec: 6.9,
    endSec: 8.2,
    isTakenBack: false,
    settled: null,
    answers: [],
    ...changed,
  };
}

export function shownAnswer(changed: Partial<ShownAnswer> = {}): ShownAnswer {
  return {
    id: "a",
    by: "marlow",
    atMs: 2,
    words: "Pedals.",
    rewordedAtMs: null,
    stretch: null,
    isSinceSettled: false,
    ...changed,
  };
}
