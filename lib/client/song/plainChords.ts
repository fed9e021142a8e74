import type { Key } from "@/lib/theory/key";
import { numberToChord } from "@/lib/theory/numberChart";

/** The 1, 4 and 5 of a home, which one tries first by ear: all major, in minor the 1 and the 4 minor (common practice, no source). */
export function plainChords(key: Key): string[] {
  const numbers = key.mode === "major" ? ["1", "4", "5"] : ["1-", "4-", "5"];
  return numbers.map((number) => numberToChord(number, key));
}
