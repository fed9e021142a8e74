import type { Copedent } from "@/lib/instrument/Copedent";
import { fretsOf, settleFrets } from "@/lib/instrument/frets";
import type { Place } from "../Place";
import type { FingerWeights } from "./fingerWeights";
import { fretDistanceMm, scaleMm } from "./fretGeometry";

/** A string held down. */
export interface Stop {
  string: number;
  fret: number;
}

/** Notes stopped by fingers, one a string, and what the hand must be for it. */
export interface Fingering {
  place: Place;
  /** For each string of the place, 0 = open. */
  frets: readonly number[];
  /** The strings that are not open, by string number. */
  stops: readonly Stop[];
  /** Lowest and highest fret stopped; 0 where all strings are open. */
  lowest: number;
  highest: number;
  /** Fingers that must be down, at most four. */
  fingers: number;
  /** Whether one finger must lie across several strings. */
  isBarre: boolean;
  /** Frets at which the index finger may be, ascending. Where all strings are open the hand may be anywhere. */
  positions: readonly number[];
  /** Lowest and highest number of the strings picked; of all that sound where none is. */
  firstString: number;
  lastString: number;
  /** Strings between these that do not sound. */
  skippedStrings: number;
}

/** Fingers of the stopping hand; the thumb stands behind the neck. */
export const FINGERS = 4;

/**
 * What the hand must be for a place.
 * @param pickedCount how many of its strings are picked, the first ones; the others sound already
 * @returns null where no hand can: more than four fingers, or further apart than it reaches
 */
export function fingeringOf(
  copedent: Copedent,
  place: Place,
  pickedCount: number,
  { reachMm }: Pick<FingerWeights, "reachMm">,
): Fingering | null {
  const frets = fretsOf(place);
  const stops = place.strings
    .map((string, at): Stop => ({ string, fret: frets[at]! }))
    .filter(({ fret }) => fret > 0)
    .sort((a, b) => a.string - b.string);
  const stopped = stops.map(({ fret }) => fret);
  const [lowest, highest] = stops.length === 0 ? [0, 0] : [Math.min(...stopped), Math.max(...stopped)];
  const isBarre = stops.length > FINGERS;
  const fingers = isBarre ? fingersWithBarres(place.strings, frets) : stops.length;
  if (fingers > FINGERS) return null;
  const scale = scaleMm(copedent);
  const positions: number[] = [];
  for (let index = 1; index <= (stops.length === 0 ? copedent.fretCount : lowest); index += 1) {
    const isInReach = stops.length === 0 || fretDistanceMm(scale, index, highest) <= reachMm;
    // Behind the lowest stop the index finger has nothing to hold, and the other three do all.
    if (isInReach && (index >= lowest || fingers < FINGERS)) positions.push(index);
  }
  if (positions.length === 0) return null;
  const picked = pickedCount > 0 ? place.strings.slice(0, pickedCount) : place.strings;
  const [firstString, lastString] = [Math.min(...picked), Math.max(...picked)];
  const between = place.strings.filter((string) => string > firstString && string < lastString).length;
  return {
    place,
    frets,
    stops,
    lowest,
    highest,
    fingers,
    isBarre,
    positions,
    firstString,
    lastString,
    skippedStrings: Math.max(0, lastString - firstString - 1 - between),
  };
}

/** A place from frets, one a string, each sounding one of the notes. */
export function fingerPlace(
  strings: readonly number[],
  frets: readonly number[],
  notesMidi: readonly number[],
): Place {
  return { ...settleFrets(frets), changes: [], strings, notesMidi };
}

/**
 * How many fingers stop the strings where one may lie across several: those of one fret between which no string is to sound
 * at a lower one, open ones among them. The index finger alone lies across where that is enough, else others do too.
 */
function fingersWithBarres(strings: readonly number[], frets: readonly number[]): number {
  const sounding = strings
    .map((string, at) => ({ string, fret: frets[at]! }))
    .sort((a, b) => a.string - b.string);
  const stopped = frets.filter((fret) => fret > 0);
  const lowest = Math.min(...stopped);
  const byIndexAlone = barresAt(lowest, sounding) + stopped.filter((fret) => fret > lowest).length;
  if (byIndexAlone <= FINGERS) return byIndexAlone;
  return [...new Set(stopped)].reduce((sum, fret) => sum + barresAt(fret, sounding), 0);
}

function barresAt(fret: number, sounding: readonly Stop[]): number {
  let count = 0;
  let isOpen = true;
  for (const stop of sounding) {
    if (stop.fret < fret) isOpen = true;
    else if (stop.fret === fret) {
      if (isOpen) count += 1;
      isOpen = false;
    }
  }
  return count;
}
