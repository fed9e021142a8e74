import type { Key } from "@/lib/theory/key";
import { C_MAJOR } from "@/lib/theory/key";
import { spellPitchClass } from "@/lib/theory/spelling";
import { midiToPitchClass, withinOctave } from "@/lib/units/pitch";
import type { Copedent } from "./Copedent";

/** A minor triad must hold two strings more than any major one: C6 is A minor 7 too. */
const TRIADS = [
  { mode: "major", third: 4, ahead: 1 },
  { mode: "minor", third: 3, ahead: 0 },
] as const;

/**
 * The key in which the open strings are the 1 chord: the complete triad to which most strings belong, major
 * rather than minor; of those that as many belong to, the one with more roots. E for E9, C for C6.
 * @returns null where the open strings hold no triad, as on a mandolin
 */
export function openHome(copedent: Copedent): Key | null {
  const notes = copedent.strings.map((string) => midiToPitchClass(string.openMidi));
  const count = (note: number) => notes.filter((each) => each === withinOctave(note)).length;
  let best: { key: Key; strings: number; roots: number } | null = null;
  for (const { mode, third, ahead } of TRIADS) {
    for (let root = 0; root < 12; root += 1) {
      const each = [root, root + third, root + 7].map(count);
      const strings = each.reduce((sum, of) => sum + of, ahead);
      const roots = count(root);
      const isBetter =
        best === null || strings > best.strings || (strings === best.strings && roots > best.roots);
      if (each.includes(0) || !isBetter) continue;
      best = { key: { tonic: spellPitchClass(root, C_MAJOR), mode }, strings, roots };
    }
  }
  return best?.key ?? null;
}
