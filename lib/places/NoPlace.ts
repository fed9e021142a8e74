import { joinWords } from "./joinWords";

/** Why notes have no place. */
export interface NoPlace {
  /** The instrument, as a hand plays it, gives none at all; or it does, and locks leave none of them. */
  because: "instrument" | "locks";
  /** The same for people, the locks that do it among it: whole sentences. */
  words: string;
}

/** @param locks those that leave none, each in words */
export function lockedOut(locks: readonly string[]): NoPlace {
  const which = locks.length === 1 ? "That leaves" : "Together they leave";
  return { because: "locks", words: `Locked: ${joinWords(locks)}. ${which} no place for these notes.` };
}
