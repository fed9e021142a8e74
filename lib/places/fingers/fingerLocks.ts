import type { Copedent } from "@/lib/instrument/Copedent";
import { fretOn, fretsOf } from "@/lib/instrument/frets";
import { engagedStages } from "@/lib/instrument/stages";
import { midiToName } from "@/lib/theory/spelling";
import { fewestLocks } from "../fewestLocks";
import { lockedOut, type NoPlace } from "../NoPlace";
import type { Place } from "../Place";
import type { PartLocks, PlaceLocks } from "../PlaceLocks";

/** One thing that a person has settled. */
export interface FingerLock {
  /** What is locked, in words, as in `frets 3 to 7`. */
  words: string;
  keeps(place: Place): boolean;
}

/**
 * Locks for a part and for one of its events, which all hold at once. A range of frets holds for every string, open ones
 * are at fret 0; a fret is that of the lowest finger; what is said of pedals holds where there are none.
 * @throws UnknownChangeError on a change, which no such instrument has
 */
export function fingerLocksOf(
  copedent: Copedent,
  part: PartLocks = {},
  event: PlaceLocks = {},
): FingerLock[] {
  const locks: FingerLock[] = [];
  if (event.place) {
    const { place } = event;
    engagedStages(copedent, place.changes);
    locks.push({
      words: `strings ${place.strings.join(", ")} at ${fretsOf(place).join(", ")}`,
      keeps: (other) =>
        other.strings.length === place.strings.length &&
        other.strings.every(
          (string) => place.strings.includes(string) && fretOn(other, string) === fretOn(place, string),
        ),
    });
  }
  for (const { midi, string } of event.strings ?? [])
    locks.push({
      words: `${midiToName(midi)} on string ${string}`,
      keeps: ({ strings, notesMidi }) =>
        strings.some((each, at) => each === string && notesMidi[at] === midi),
    });
  const { fret } = event;
  if (fret !== undefined)
    locks.push({ words: `the lowest finger at fret ${fret}`, keeps: (place) => place.fret === fret });
  for (const { changes, frets, grip } of [event, part]) {
    const whole = event.frets === frets && event.grip === grip ? "" : " for the whole part";
    if (changes) engagedStages(copedent, changes);
    if (frets)
      locks.push({
        words: `frets ${frets.from} to ${frets.to}${whole}`,
        keeps: (place) => fretsOf(place).every((each) => each >= frets.from && each <= frets.to),
      });
    if (grip)
      locks.push({
        words: `strings ${grip.join(", ")}${whole}`,
        keeps: ({ strings }) => strings.every((string) => grip.includes(string)),
      });
  }
  return locks;
}

/** Why locks leave notes no place. */
export function whyNoFingering(
  places: readonly Place[],
  noteCount: number,
  locks: readonly FingerLock[],
): NoPlace {
  if (places.length === 0) {
    const words =
      noteCount === 1
        ? "This note does not lie on this neck."
        : "One hand cannot stop these notes together on this neck.";
    return { because: "instrument", words };
  }
  const leavesNone = (some: readonly FingerLock[]) =>
    !places.some((place) => some.every((lock) => lock.keeps(place)));
  return lockedOut(fewestLocks(locks, leavesNone).map(({ words }) => words));
}
