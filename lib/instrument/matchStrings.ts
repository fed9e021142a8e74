import type { Copedent } from "./Copedent";

/**
 * Which string of another instrument stands for each string of one: that of the same number where both are tuned
 * alike, else one tuned like it that stands for no other. Strings that find none are missing.
 * @returns number on `to` by number on `from`
 */
export function matchStrings(from: Copedent, to: Copedent): ReadonlyMap<number, number> {
  const isAlike = (one: Copedent["strings"][number], other: Copedent["strings"][number]) =>
    one.openMidi === other.openMidi && (one.beginsAtFret ?? 0) === (other.beginsAtFret ?? 0);
  const matched = new Map<number, number>();
  const free = new Set(to.strings);
  const give = (number: number, string: Copedent["strings"][number] | undefined) => {
    if (string === undefined) return;
    matched.set(number, string.number);
    free.delete(string);
  };
  for (const string of from.strings)
    give(
      string.number,
      to.strings.find((other) => other.number === string.number && isAlike(string, other)),
    );
  for (const string of from.strings) {
    if (matched.has(string.number)) continue;
    give(
      string.number,
      [...free].find((other) => isAlike(string, other)),
    );
  }
  return matched;
}
