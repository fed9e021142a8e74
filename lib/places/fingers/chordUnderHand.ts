import type { Copedent, CopedentString } from "@/lib/instrument/Copedent";
import { riseAt } from "@/lib/instrument/effectivePitch";
import { midiToPitchClass } from "@/lib/units/pitch";
import { type Agreement, agreementOf } from "../chordAgreement";
import { fingeringOf, fingerPlace } from "./Fingering";
import type { HandState } from "./fingerCost";
import type { FingerWeights } from "./fingerWeights";
import { fretsUnderHand, scaleMm } from "./fretGeometry";

/** Neighbouring strings of one grip: three for a triad, and one that doubles a note of it (local proposal). */
const STRINGS_OF_GRIP = 4;

/**
 * How well the hand lies for a chord: what it stops stays, and its free fingers stop the strings beside those played, at the
 * frets that they stand over, or leave them open, so that together they sound a grip of the chord on neighbouring
 * strings. A player on one note of a chord keeps the rest of it under the hand.
 * @param chordMask as from `chordMaskOf`, not 0; every note played is of the chord
 */
export function chordUnderHand(
  copedent: Copedent,
  state: HandState,
  chordMask: number,
  weights: Pick<FingerWeights, "reachMm">,
): Agreement {
  const { place, frets } = state.fingering;
  const key = `${place.strings.join()} ${frets.join()} ${state.position} ${chordMask} ${weights.reachMm}`;
  const known = agreements.get(copedent) ?? new Map<string, Agreement>();
  agreements.set(copedent, known);
  const found = known.get(key) ?? bestGrip(copedent, state, chordMask, weights);
  known.set(key, found);
  return found;
}

/** What was worked out once is kept: a copedent is data that never changes. */
const agreements = new WeakMap<Copedent, Map<string, Agreement>>();

function bestGrip(
  copedent: Copedent,
  { fingering, position }: HandState,
  chordMask: number,
  weights: Pick<FingerWeights, "reachMm">,
): Agreement {
  const { place, frets } = fingering;
  const lastFret = Math.min(copedent.fretCount, position + fretsUnderHand(scaleMm(copedent)) - 1);
  const notes = copedent.strings.map((string) => chordNotesOn(string, position, lastFret, chordMask));
  let best = "foreign" as Agreement;
  /** Adds the strings of a grip one by one; over when all the chord is found. */
  const goOn = (left: readonly number[], strings: number[], stopped: number[], mask: number): void => {
    const [index, ...rest] = left;
    if (index !== undefined) {
      for (const { fret, pitchClass } of notes[index]!) {
        const string = copedent.strings[index]!.number;
        goOn(rest, [...strings, string], [...stopped, fret], mask | (1 << pitchClass));
        if (best === "matched") return;
      }
      return;
    }
    const agreement = agreementOf(mask, chordMask);
    if (agreement === "foreign" || agreement === best) return;
    const grip = fingeringOf(copedent, fingerPlace(strings, stopped, []), strings.length, weights);
    if (grip?.positions.includes(position)) best = agreement;
  };
  if (place.strings.length === 0) return best;
  const played = place.strings.map((string) => copedent.strings.findIndex(({ number }) => number === string));
  const playedMask = place.notesMidi.reduce((mask, midi) => mask | (1 << midiToPitchClass(midi)), 0);
  for (const grip of gripsAround(played, copedent.strings.length)) {
    const beside = grip.filter((index) => !played.includes(index));
    goOn(beside, [...place.strings], [...frets], playedMask);
    if (best === "matched") break;
  }
  return best;
}

/** Runs of neighbouring strings, by index, that hold those played; shortest first. */
function gripsAround(played: readonly number[], stringCount: number): number[][] {
  const [first, last] = [Math.min(...played), Math.max(...played)];
  const found: number[][] = [];
  const longest = Math.min(stringCount, Math.max(STRINGS_OF_GRIP, last - first + 1));
  for (let length = last - first + 1; length <= longest; length += 1)
    for (let from = Math.max(0, last - length + 1); from <= first && from + length <= stringCount; from += 1)
      found.push(Array.from({ length }, (_, at) => from + at));
  return found;
}

/** Notes of the chord that a string gives open or under the hand. */
function chordNotesOn(
  { openMidi, beginsAtFret = 0 }: CopedentString,
  position: number,
  lastFret: number,
  chordMask: number,
): { fret: number; pitchClass: number }[] {
  const found: { fret: number; pitchClass: number }[] = [];
  for (let fret = 0; fret <= lastFret; fret = fret === 0 ? Math.max(1, position) : fret + 1) {
    // A short string stopped where it begins is open.
    const rise = fret > 0 && fret === beginsAtFret ? null : riseAt(fret, beginsAtFret);
    if (rise === null) continue;
    const pitchClass = midiToPitchClass(openMidi + rise);
    if ((chordMask >> pitchClass) & 1) found.push({ fret, pitchClass });
  }
  return found;
}
