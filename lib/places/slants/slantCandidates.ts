import type { Midi } from "@/lib/units/quantities";
import type { CandidateOptions } from "../candidates";
import { compareLists } from "../compareLists";
import { NOTHING_FIXED } from "../FixedStages";
import { finderFor } from "../holdFinder";
import type { Neck } from "../neck";
import type { Spot } from "../Spot";
import { MOST_STRINGS, slantOf, WIDEST_SPAN } from "./Slant";

/**
 * Every way to sound two or three notes together under a slanted bar, each on a string of its own, with the sets of changes
 * that `findCandidates` would take. Ordered by lowest fret, then fewest changes, then strings. They are taught as an extra on pedal
 * steel and are at home on lap steel (pedalsteelmusic.com/?p=807, B. Hempker), so they are tried only where asked for.
 * @param notesMidi whole MIDI pitches, in any order
 */
export function findSlants(
  neck: Neck,
  notesMidi: readonly Midi[],
  { maxFret = neck.copedent.fretCount, pickedCount = notesMidi.length, fixed }: CandidateOptions = {},
): Spot[] {
  if (notesMidi.length < 2 || notesMidi.length > MOST_STRINGS || neck.copedent.stoppedBy !== "bar") return [];
  const { strings } = neck.copedent;
  const finder = finderFor(neck, fixed ?? NOTHING_FIXED);
  const found: Spot[] = [];
  const taken: number[] = [];
  const offsets: number[] = [];
  const frets: number[] = [];
  const goOn = (): void => {
    const note = notesMidi[taken.length];
    if (note === undefined) {
      const slant = slantOf(taken.map((index, at) => ({ index, fret: frets[at]! })));
      if (slant === null) return;
      const fret = Math.min(...frets);
      for (const hold of finder.find(taken, offsets, pickedCount))
        found.push({ fret, hold, slant, frets: [...frets] });
      return;
    }
    strings.forEach(({ openMidi, beginsAtFret = 0 }, index) => {
      if (taken.includes(index) || beginsAtFret > 0) return;
      for (const offset of finder.offsetsOf(index)) {
        const fret = note - openMidi - offset;
        if (!Number.isInteger(fret) || fret < 1 || fret > maxFret) continue;
        if (frets.some((other) => Math.abs(other - fret) > WIDEST_SPAN)) continue;
        taken.push(index);
        offsets.push(offset);
        frets.push(fret);
        goOn();
        taken.pop();
        offsets.pop();
        frets.pop();
      }
    });
  };
  goOn();
  return found.sort(
    (a, b) =>
      a.fret - b.fret ||
      a.hold.set.ids.length - b.hold.set.ids.length ||
      compareLists(a.hold.strings, b.hold.strings),
  );
}
