/** What can be found by words. */
export interface Findable {
  name: string;
  /** Where it belongs: a lane, or "Everywhere". */
  place: string;
  /** The key as it is printed; null where it has none. */
  label: string | null;
  /** What has to be done first; null where it can be done now. */
  lack: string | null;
}

/**
 * The acts that typed words lead to: each word begins a word of the act's name, its place or its key. What can be done now comes
 * first, then what has all the words in its name; else they stay in their order.
 */
export function findActs<A extends Findable>(acts: readonly A[], typed: string): A[] {
  const wanted = wordsOf(typed);
  const ranked = acts.flatMap((act) => {
    const inName = wordsOf(act.name);
    const all = [...inName, ...wordsOf(act.place), ...(act.label ? wordsOf(act.label) : [])];
    const begins = (among: readonly string[]) =>
      wanted.every((word) => among.some((one) => one.startsWith(word)));
    if (!begins(all)) return [];
    return [{ act, rank: (act.lack === null ? 0 : 2) + (begins(inName) ? 0 : 1) }];
  });
  return ranked.sort((a, b) => a.rank - b.rank).map(({ act }) => act);
}

/** Words in small letters; signs that stand alone, such as a key, count as words. */
function wordsOf(text: string): string[] {
  return text
    .toLowerCase()
    .split(/[\s.,:;()/–-]+(?=\S)|[.,:;)]+$/)
    .filter((word) => word !== "");
}
