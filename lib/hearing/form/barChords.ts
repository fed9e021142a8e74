import type { PitchClass, Seconds } from "@/lib/units/quantities";
import { CHORD_STATES } from "../chordVocabulary";
import type { HeardBeat, HeardStretch } from "../Hearing";
import { FORM } from "./parameters";

/** Chords by root and by the size of their third: 12 large from C, 12 small, then no chord. */
export const CHORD_CLASSES = 25;
const NO_CHORD_CLASS = 24;
const SMALL_THIRD = 3;

/** The chords of each bar, in equal slots. */
export interface BarChords {
  slots: number;
  /** For each bar probability of each class, slot by slot: slots times CHORD_CLASSES. */
  chances: Float64Array[];
  /** How common each class is over the whole record, never 0; sums to 1. */
  common: Float64Array;
}

/** The bars from each downbeat to the next, the last one to the end; empty where there is no downbeat. */
export function barsOf(beats: readonly HeardBeat[], durationSec: Seconds): HeardStretch[] {
  const startsSec = beats.filter(({ inBar }) => inBar === 1).map(({ timeSec }) => timeSec);
  return startsSec
    .map((startSec, i) => ({ startSec, endSec: startsSec[i + 1] ?? durationSec }))
    .filter(({ startSec, endSec }) => endSec > startSec);
}

const CLASS_OF_STATE = CHORD_STATES.map(({ chord }) => {
  if (!chord) return NO_CHORD_CLASS;
  return chord.root + (chord.type.semitones[1] === SMALL_THIRD ? 12 : 0);
});

/** The class that a class becomes when all is played so many semitones higher. */
export function transposedClass(chordClass: number, semitones: PitchClass): number {
  if (chordClass === NO_CHORD_CLASS) return chordClass;
  const third = chordClass < 12 ? 0 : 12;
  return third + ((chordClass - third + semitones) % 12);
}

/**
 * Lays chords into bars.
 * @param certain probability of each of CHORD_STATES in each stretch
 * @param edgesSec edges of the stretches, one more
 * @param slots equal parts of each bar: its beats
 */
export function chordsInBars(
  certain: readonly ArrayLike<number>[],
  edgesSec: readonly Seconds[],
  bars: readonly HeardStretch[],
  slots: number,
): BarChords {
  const classes = certain.map(classChances);
  const common = new Float64Array(CHORD_CLASSES).fill(FORM.evenShare / CHORD_CLASSES);
  const totalSec = Math.max(1e-9, edgesSec.at(-1)! - edgesSec[0]!);
  classes.forEach((row, i) => {
    const share = ((1 - FORM.evenShare) * (edgesSec[i + 1]! - edgesSec[i]!)) / totalSec;
    for (let c = 0; c < CHORD_CLASSES; c++) common[c]! += share * row[c]!;
  });
  let first = 0;
  const chances = bars.map(({ startSec, endSec }) => {
    const row = new Float64Array(slots * CHORD_CLASSES);
    const slotSec = (endSec - startSec) / slots;
    for (let slot = 0; slot < slots; slot++) {
      const fromSec = startSec + slot * slotSec;
      const toSec = fromSec + slotSec;
      while (first + 1 < classes.length && edgesSec[first + 1]! <= fromSec) first += 1;
      for (let i = first; i < classes.length && edgesSec[i]! < toSec; i++) {
        const share = (Math.min(edgesSec[i + 1]!, toSec) - Math.max(edgesSec[i]!, fromSec)) / slotSec;
        if (share <= 0) continue;
        for (let c = 0; c < CHORD_CLASSES; c++) row[slot * CHORD_CLASSES + c]! += share * classes[i]![c]!;
      }
    }
    return row;
  });
  return { slots, chances, common };
}

function classChances(states: ArrayLike<number>): Float64Array {
  const chances = new Float64Array(CHORD_CLASSES);
  for (let s = 0; s < states.length; s++) chances[CLASS_OF_STATE[s]!]! += states[s]!;
  return chances;
}
