import type * as Y from "yjs";
import { readKeptSaying, readKeptSettled, readKeptThere, readKeptWords } from "../records/questionGuards";
import {
  type KeptSaying,
  QUESTIONS,
  SAID,
  SAID_PREFIX,
  SETTLED_REGISTER,
  type ShownAnswer,
  type ShownQuestion,
  THERE_PREFIX,
  WORDS_PREFIX,
} from "../records/questions";
import { recordMap, registerKey, splitKey } from "../records/storage";
import { inOrder } from "./flatten";
import { compareText } from "./rank";

/** What was asked or answered, and what became of it; those too that were taken back. */
export interface Said extends KeptSaying {
  id: string;
  by: string;
  rewordedAtMs: number | null;
  isThere: boolean;
  /** When its author took it back; null where it is there, or its author's undo took it away. */
  takenBackAtMs: number | null;
}

/**
 * Everything that was asked or answered, by id (rules D59, D60): whoever said it is told by the name of its register, and
 * nobody else's word on it counts. Where two claim one id, the lower person id holds.
 */
export function readSaid(doc: Y.Doc): Map<string, Said> {
  const since = recordMap(doc, QUESTIONS);
  const said = new Map<string, Said>();
  recordMap(doc, SAID).forEach((value, key) => {
    const parts = splitKey(key);
    if (!parts?.register.startsWith(SAID_PREFIX)) return;
    const id = parts.recordId;
    const by = parts.register.slice(SAID_PREFIX.length);
    const saying = readKeptSaying(value);
    const other = said.get(id);
    if (!saying || by === "" || (other && compareText(other.by, by) <= 0)) return;
    const there = readKeptThere(since.get(registerKey(id, THERE_PREFIX + by)));
    const worded = readKeptWords(since.get(registerKey(id, WORDS_PREFIX + by)));
    said.set(id, {
      ...saying,
      words: worded?.words ?? saying.words,
      id,
      by,
      rewordedAtMs: worded?.atMs ?? null,
      isThere: there?.isThere === true,
      takenBackAtMs: there?.isThere === false ? there.atMs : null,
    });
  });
  return said;
}

/**
 * All questions that are shown, with their answers.
 * @returns in order of time in the record, then of when they were asked, then id
 */
export function readQuestions(doc: Y.Doc): ShownQuestion[] {
  const said = [...readSaid(doc).values()];
  const answers = new Map<string, Said[]>();
  for (const each of said) {
    if (each.question === null || !each.isThere) continue;
    const thread = answers.get(each.question);
    if (thread) thread.push(each);
    else answers.set(each.question, [each]);
  }
  return said
    .flatMap((each) => {
      if (each.question !== null || each.stretch === null) return [];
      const thread = (answers.get(each.id) ?? []).sort(bySaid);
      // What others wrote never goes with a question that its author took back.
      if (!each.isThere && thread.every(({ by }) => by === each.by)) return [];
      return [shown(doc, { ...each, stretch: each.stretch }, thread)];
    })
    .sort((a, b) => a.startSec - b.startSec || bySaid(a, b));
}

function shown(
  doc: Y.Doc,
  { id, by, atMs, words, rewordedAtMs, isThere, stretch }: Said & { stretch: NonNullable<Said["stretch"]> },
  thread: readonly Said[],
): ShownQuestion {
  const kept = readKeptSettled(recordMap(doc, QUESTIONS).get(registerKey(id, SETTLED_REGISTER)));
  const settled = kept?.isSettled ? kept : null;
  const answers: ShownAnswer[] = thread.map((answer) => ({
    id: answer.id,
    by: answer.by,
    atMs: answer.atMs,
    words: answer.words,
    rewordedAtMs: answer.rewordedAtMs,
    stretch: answer.stretch && inOrder(answer.stretch),
    isSinceSettled: settled !== null && !settled.seen.includes(answer.id),
  }));
  return {
    id,
    by,
    atMs,
    words: isThere ? words : "",
    rewordedAtMs: isThere ? rewordedAtMs : null,
    isTakenBack: !isThere,
    ...inOrder(stretch),
    settled: settled && { by: settled.by, atMs: settled.atMs },
    answers,
  };
}

function bySaid(a: { atMs: number; id: string }, b: { atMs: number; id: string }): number {
  return a.atMs - b.atMs || compareText(a.id, b.id);
}
