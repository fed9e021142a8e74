import type { Copedent } from "@/lib/instrument/Copedent";
import type { CombinationChord } from "@/lib/instrument/combinationChord";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { parseHarte } from "@/lib/theory/harte";

/** Players hold two or three at once; with more a combination is looked up, not learned (common practice, no source). */
const MOST_CHANGES = 3;

/**
 * The combinations that are learned first: few changes, each of which does something to the strings asked about, and a
 * chord with a plain name, at most a note short of whole.
 */
export function plainCombinations(
  copedent: Copedent,
  combinations: readonly CombinationChord[],
): CombinationChord[] {
  return combinations.filter(({ changes, strings, unsureStrings, names }) => {
    if (changes.length > MOST_CHANGES || unsureStrings.length > 0) return false;
    const pitches = (engaged: readonly string[]) =>
      strings.map((string) => effectiveMidi(copedent, string, 0, engaged)).join();
    const all = pitches(changes);
    if (changes.some((id) => pitches(changes.filter((other) => other !== id)) === all)) return false;
    return changes.length <= 1 || names.some(({ label }) => isPlain(label, changes.length));
  });
}

/** The fewer changes, the likelier it is learned with a note added. */
function isPlain(label: string, changeCount: number): boolean {
  const extensions = parseHarte(label)?.extensions ?? [];
  return changeCount < MOST_CHANGES ? extensions.length <= 1 : extensions.every((each) => each === "*5");
}
