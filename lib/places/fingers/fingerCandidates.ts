import type { Copedent } from "@/lib/instrument/Copedent";
import type { Midi } from "@/lib/units/quantities";
import { compareLists } from "../compareLists";
import { type Fingering, fingeringOf, fingerPlace } from "./Fingering";
import type { FingerWeights } from "./fingerWeights";

export interface FingerCandidateOptions {
  /** Highest fret to look at; the copedent's last by default. */
  maxFret?: number | undefined;
  /** How many of the notes are picked, the first ones; the rest sound already. All by default. */
  pickedCount?: number | undefined;
}

/**
 * Every way to stop the notes with one hand: each on a string of its own, open or at its own fret, with four fingers and
 * within its reach. A string that begins higher up is open or stopped beyond its beginning. Of two strings picked in unison
 * it is all the same which is which: a set of strings comes once. Ordered by lowest stop, then strings.
 * @param notesMidi whole MIDI pitches, in any order
 * @returns empty where the notes cannot be played
 */
export function findFingerings(
  copedent: Copedent,
  notesMidi: readonly Midi[],
  weights: Pick<FingerWeights, "reachMm">,
  { maxFret = copedent.fretCount, pickedCount = notesMidi.length }: FingerCandidateOptions = {},
): Fingering[] {
  if (notesMidi.length === 0) return [];
  const found: Fingering[] = [];
  const strings: number[] = [];
  const frets: number[] = [];
  const goOn = (): void => {
    const at = strings.length;
    const note = notesMidi[at];
    if (note === undefined) {
      const place = fingerPlace([...strings], frets, notesMidi);
      const fingering = fingeringOf(copedent, place, pickedCount, weights);
      if (fingering !== null) found.push(fingering);
      return;
    }
    const twin = at === 0 || at >= pickedCount ? -1 : notesMidi.lastIndexOf(note, at - 1);
    for (const { number, openMidi, beginsAtFret = 0 } of copedent.strings) {
      const rise = note - openMidi;
      const fret = rise === 0 ? 0 : beginsAtFret + rise;
      if (!Number.isInteger(rise) || rise < 0 || fret > maxFret || strings.includes(number)) continue;
      if (twin >= 0 && number < strings[twin]!) continue;
      strings.push(number);
      frets.push(fret);
      goOn();
      strings.pop();
      frets.pop();
    }
  };
  goOn();
  return found.sort((a, b) => a.lowest - b.lowest || compareLists(a.place.strings, b.place.strings));
}
