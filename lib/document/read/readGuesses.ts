import type * as Y from "yjs";
import { GUESSES, MADE_PREFIX, type ShownGuess, TOLD_PREFIX } from "../records/guesses";
import { readKeptGuess, readKeptOutcome } from "../records/guessGuards";
import { recordMap, splitKey } from "../records/storage";
import { compareText } from "./rank";

/**
 * Reads all guesses that can be read (rules D46, D47): whoever made one is told by the name of its register, and nobody
 * else's word on it counts. Where two claim one id, the lower person id holds.
 * @returns in order of time made, then id
 */
export function readGuesses(doc: Y.Doc): ShownGuess[] {
  const made = new Map<string, ShownGuess>();
  const told = new Map<string, unknown>();
  recordMap(doc, GUESSES).forEach((value, key) => {
    const parts = splitKey(key);
    if (!parts) return;
    const { recordId: id, register } = parts;
    if (register.startsWith(TOLD_PREFIX)) told.set(key, value);
    if (!register.startsWith(MADE_PREFIX)) return;
    const by = register.slice(MADE_PREFIX.length);
    const guess = readKeptGuess(value);
    const other = made.get(id);
    if (!guess || by === "" || (other && compareText(other.by, by) <= 0)) return;
    made.set(id, { ...guess, id, by, outcome: null });
  });
  return [...made.values()]
    .map((guess) => {
      const outcome = readKeptOutcome(told.get(`${guess.id}.${TOLD_PREFIX}${guess.by}`), guess.lane);
      return { ...guess, outcome };
    })
    .sort((a, b) => a.atMs - b.atMs || compareText(a.id, b.id));
}
