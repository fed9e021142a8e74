import type { Copedent } from "@/lib/instrument/Copedent";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import type { HeardEvent } from "@/lib/places/HeardEvent";
import { placeSequence } from "@/lib/places/placeSequence";
import { rankPlaces } from "@/lib/places/rankPlaces";
import { C_MAJOR } from "@/lib/theory/key";

/** Rounds after which the search runs no quicker, as measured in Chromium (`tests/bench/firstPart.ts`). */
const ROUNDS = 12;
/** Few enough that whoever asks meanwhile does not wait. */
const EVENTS_PER_ROUND = 40;
const FRETS = [3, 5, 8, 10, 1, 12, 6];
/** Of its first string how many strings further the others lie: single notes, pairs and three strings. */
const GRIPS: readonly (readonly number[])[] = [[0], [0, 1], [0, 2], [0, 1, 2], [0, 1, 3]];
const CHORDS = ["C:maj", "F:maj", "G:7", "A:min"];

/**
 * Lays out short parts on a guitar, by the very search that parts are laid out by, for nobody: an engine compiles a search
 * while it runs, and what is worked out of a neck is kept with it, so that the first part that is asked for comes as
 * soon as later ones.
 */
export function* warmUp(copedent: Copedent): Generator<void, void> {
  for (let round = 0; round < ROUNDS; round += 1) {
    const events = partFor(copedent, round * EVENTS_PER_ROUND);
    const placed = placeSequence(copedent, events, { key: C_MAJOR });
    placed.events.forEach(({ chosenIndex }, at) => {
      if (chosenIndex !== null) placed.explain(at, chosenIndex);
    });
    for (const { notesMidi, chordLabel } of events.slice(0, 3))
      rankPlaces(copedent, notesMidi, { chordLabel, key: C_MAJOR });
    yield;
  }
}

/** What some of the strings sound at some frets, one after the other. */
function partFor(copedent: Copedent, from: number): HeardEvent[] {
  const { strings } = copedent;
  return Array.from({ length: EVENTS_PER_ROUND }, (_, at): HeardEvent => {
    const nth = from + at;
    const fret = Math.min(copedent.fretCount, FRETS[nth % FRETS.length]!);
    const notesMidi = GRIPS[nth % GRIPS.length]!.flatMap((further) => {
      const string = strings[(nth + further) % strings.length]!;
      return effectiveMidi(copedent, string.number, fret, []) ?? [];
    });
    return {
      startSec: nth * 0.4,
      endSec: nth * 0.4 + 0.3,
      notesMidi: [...new Set(notesMidi)],
      chordLabel: CHORDS[(nth >> 2) % CHORDS.length]!,
      ...(nth % 7 === 0 && { glide: "oblique" as const }),
    };
  });
}
