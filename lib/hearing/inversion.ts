import type { PitchClass } from "@/lib/units/quantities";
import type { ChordRun } from "./changes";
import { CHORD_STATES, type ChordType } from "./chordVocabulary";
import type { StretchChroma } from "./chroma";
import type { StretchPosterior } from "./learned/chordPosteriors";
import { INVERSION } from "./parameters";
import { likeliestPath } from "./stayOrChange";
import type { Stretches, StretchStart } from "./stretches";

/** What lies in the bass of a stretch: probability of each pitch class from C, then of none. */
export type BassChances = Float64Array;

/** By a learned ear. */
export function learnedBassChances(posteriors: readonly StretchPosterior[]): BassChances[] {
  return posteriors.map(({ bass }) => bass);
}

/** By the plain signal: the energy of the bass chroma, some of it doubted. */
export function signalBassChances(chroma: readonly StretchChroma[]): BassChances[] {
  return chroma.map(({ bass }) => {
    const energy = bass.reduce((sum, value) => sum + value * value, 0);
    const chances = new Float64Array(13);
    const heard = energy > 0 ? 1 - INVERSION.signalDoubt : 0;
    for (let p = 0; p < 12; p++) chances[p] = energy > 0 ? (heard * bass[p]! ** 2) / energy : 0;
    chances[12] = 1 - heard;
    return chances;
  });
}

/**
 * Runs parted where the bass settles on another tone of the chord, each with the tone that its bass is said to hold.
 * Within each chord a hidden Markov model walks through the tones that the bass may hold. While it holds the root it
 * plays the fifth, too, as basses do in two-beat, and passes through other notes on its way to the next chord;
 * another tone is held only where it stays, from a beat on.
 */
export function withBass(
  runs: readonly ChordRun[],
  bass: readonly BassChances[],
  { starts, beats }: Stretches,
): ChordRun[] {
  return runs.flatMap((run) => {
    const chord = CHORD_STATES[run.state]!.chord;
    if (!chord) return [run];
    const heldTones = toneChances(chord.root, chord.type);
    const span = { from: run.from, to: run.to };
    const path = likeliestPath({
      likelihoods: bass.slice(span.from, span.to).map((row, i) => {
        const weight = INVERSION.weight * beats[span.from + i]!;
        return Float64Array.from(heldTones, (tones) => {
          const heard = tones.reduce((sum, chance, p) => sum + chance * row[p]!, row[12]! / 12);
          return weight * Math.log(heard);
        });
      }),
      changeProbability: starts.slice(span.from, span.to).map((start) => MOVE_PROBABILITY[start]),
      logTargets: bass.slice(span.from, span.to).map(() => logHeld(chord.type)),
    });
    const parts: ChordRun[] = [];
    path.forEach((place, i) => {
      const at = run.from + i;
      const last = parts.at(-1);
      if (last && last.bassPlace === place) last.to = at + 1;
      else parts.push({ ...run, bassPlace: place, from: at, to: at + 1 });
    });
    return parts;
  });
}

const MOVE_PROBABILITY: Record<StretchStart, number> = {
  offBeat: INVERSION.moveBetweenBeats,
  push: INVERSION.moveBetweenBeats,
  beat: INVERSION.moveOnBeat,
  midBar: INVERSION.moveOnStrongBeat,
  downbeat: INVERSION.moveOnStrongBeat,
};

function logHeld(type: ChordType): Float64Array {
  const shares = type.semitones.map((_, place) => INVERSION.held[place]!);
  const total = shares.reduce((sum, share) => sum + share, 0);
  return Float64Array.from(shares, (share) => Math.log(share / total));
}

/** Chance of each pitch class in the bass while it holds each tone of the chord. */
function toneChances(root: PitchClass, { semitones }: ChordType): Float64Array[] {
  return semitones.map((_, held) => {
    const tones = held === 0 ? INVERSION.whileRootHeld : INVERSION.whileOtherHeld;
    const chances = new Float64Array(12);
    let left = 1;
    semitones.forEach((above, place) => {
      const share = held > 0 && place === held ? INVERSION.heldShare : tones[place]!;
      chances[(root + above) % 12] = share;
      left -= share;
    });
    const foreign = 12 - semitones.length;
    return chances.map((chance) => (chance > 0 ? chance : left / foreign));
  });
}
