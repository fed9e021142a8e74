/** Why notes have no place. */
export interface NoPlace {
  /** The instrument, as a hand plays it, gives none at all; or it does, and locks leave none of them. */
  because: "instrument" | "locks";
  /** The same for people, the locks that do it among it: whole sentences. */
  words: string;
}

/** @param list the locks that leave none, joined; @param count how many they are */
export function lockedOut(list: string, count: number): NoPlace {
  const which = count === 1 ? "That leaves" : "Together they leave";
  return { because: "locks", words: `Locked: ${list}. ${which} no place for these notes.` };
}
