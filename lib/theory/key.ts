/** Whether the third above the tonic is large or small. */
export type Mode = "major" | "minor";

/** A key ("home"). */
export interface Key {
  /** Spelled tonic: letter and at most one accidental, as in `Eb`, `F#`. */
  tonic: string;
  mode: Mode;
}

/** What is reckoned from when no key is known. */
export const C_MAJOR: Key = { tonic: "C", mode: "major" };

/** Whether two keys are one, by name: Gb is not F# here. */
export function isSameKey(one: Key, other: Key): boolean {
  return one.tonic === other.tonic && one.mode === other.mode;
}

/** A key in words, as in `G major`. */
export function keyToWords(key: Key): string {
  return `${key.tonic} ${key.mode}`;
}
