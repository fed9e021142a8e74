import { type Key, keyToWords } from "@/lib/theory/key";
import type { Cents } from "@/lib/units/quantities";

/** Home in words, as in `home A major`. */
export function homeToWords(key: Key | null): string {
  return key === null ? "home not known" : `home ${keyToWords(key)}`;
}

/** How far a record runs off A440, in words, to the whole cent; none where it is not known. */
export function tuningToWords(tuningCents: Cents | undefined): string[] {
  if (tuningCents === undefined) return [];
  const cents = Math.round(tuningCents);
  if (cents === 0) return ["the record stands at A440"];
  const amount = Math.abs(cents) === 1 ? "1 cent" : `${Math.abs(cents)} cents`;
  return [`the record stands ${amount} ${cents > 0 ? "above" : "below"} A440`];
}
