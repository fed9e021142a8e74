import { type KeyPress, readKeys } from "./readKeys";

/** What one key of a row does. */
export interface KeyAct {
  name: string;
  /** The key as it is printed. */
  label: string;
  /** Null where it is typed rather than pressed. */
  press: KeyPress | null;
}

const BRACES = /\{([^{}]*\|[^{}]*)\}/;

/** A row of the table of keys in plain words: `the note {before|after}` is "the note before, after". */
export function rowWords(words: string): string {
  return words.replace(BRACES, (_, inner: string) => inner.split("|").join(", "));
}

/**
 * The acts of a row, one for each of its keys where braces say what each does.
 * @param row printed keys, and words for what they do
 */
export function actsOfRow([printed, words]: readonly [string, string]): KeyAct[] {
  const presses = readKeys(printed);
  const inner = BRACES.exec(words)?.[1]?.split("|");
  if (!presses || (inner && inner.length !== presses.length) || (!inner && presses.length > 1))
    return [{ name: rowWords(words), label: printed, press: null }];
  return presses.map((press, index) => ({
    name: inner ? words.replace(BRACES, inner[index] ?? "") : words,
    label: inner ? press.label : printed,
    press,
  }));
}
