import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { rankPlaces } from "@/lib/places/rankPlaces";
import { C_MAJOR } from "@/lib/theory/key";
import type { PassageNote } from "../song/passageMoments";
import { placePassage } from "../song/placePassage";

/**
 * Strokes in a round, each time that everything is gone through: few enough that whoever asks meanwhile does not wait for
 * long, and so often that an engine has compiled the search by then (measured by `tests/bench/firstPart.ts`).
 */
const ROUND_LENGTHS = [12, 64, 64];
const FRETS = [3, 5, 8, 10, 1, 12, 6];
const STROKE_SEC = 0.4;

/**
 * Lays out short passages on a guitar, by the very search that passages are laid out by, for nobody: every string, every
 * pair and every usual grip of three. An engine compiles a search while it runs, and what pedals and levers do to strings is
 * worked out once for each pair and kept with the neck; the first part that is asked for then comes sooner.
 */
export function* warmUp(copedent: Copedent): Generator<void, void> {
  const strokes = strokesOn(copedent);
  const around = { key: C_MAJOR, changes: [] as ShownChange[], kept: [] };
  // Piece by piece while it is slow, then in longer ones, as what is asked for is long too.
  for (const length of ROUND_LENGTHS) {
    for (let from = 0; from < strokes.length; from += length) {
      const round = strokes.slice(from, from + length);
      placePassage(copedent, round.flatMap(notesOf), around);
      rankPlaces(copedent, round[0]!, { chordLabel: "C:maj", key: C_MAJOR });
      yield;
    }
  }
}

/** What strings sound together, each stroke at a fret of its own. */
function strokesOn(copedent: Copedent): number[][] {
  const numbers = copedent.strings.map(({ number }) => number);
  const pairs = numbers.flatMap((one, at) => numbers.slice(at + 1).map((other) => [one, other]));
  const threes = copedent.grips.filter(({ length }) => length === 3);
  return [...numbers.map((number) => [number]), ...pairs, ...threes].map((strings, nth) => {
    const fret = Math.min(copedent.fretCount, FRETS[nth % FRETS.length]!);
    return [...new Set(strings.flatMap((string) => effectiveMidi(copedent, string, fret, []) ?? []))];
  });
}

function notesOf(midis: readonly number[], nth: number): PassageNote[] {
  const startSec = nth * STROKE_SEC;
  return midis.map((midi) => ({
    startSec,
    endSec: startSec + STROKE_SEC,
    midi,
    glides: [],
    confidence: null,
  }));
}
