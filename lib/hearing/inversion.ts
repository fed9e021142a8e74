import type { PitchClass } from "@/lib/units/quantities";
import type { ChordRun } from "./changes";
import { CHORD_STATES, type ChordType } from "./chordVocabulary";
import type { StretchChroma } from "./chroma";
import { INVERSION } from "./harmonyParameters";
import type { StretchPosterior } from "./learned/chordPosteriors";
import { likeliestSegments } from "./segmentModel";
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
 * Within each chord a semi-Markov model (see {@link SegmentModel}) tells which of its tones the bass holds. While it
 * holds the root it plays the fifth, too, as basses do in two-beat, and passes through other notes on its way to the
 * next chord; another tone is held only where it stays, from a strong beat as a rule.
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
    const lengths = beats.slice(run.from, run.to);
    const sums = [0];
    for (const length of lengths) sums.push(sums.at(-1)! + length);
    const moves = movesAmong(chord.type);
    const segments = likeliestSegments({
      likelihoods: bass.slice(run.from, run.to).map((row, i) =>
        Float64Array.from(heldTones, (tones) => {
          const heard = tones.reduce((sum, chance, p) => sum + chance * row[p]!, row[12]! / 12);
          return INVERSION.weight * lengths[i]! * Math.log(heard);
        }),
      ),
      logFirst: Float64Array.from(shares(chord.type, INVERSION.held), Math.log),
      moves: () => moves,
      logSegment: (from, to) => {
        if (from === 0) return 0;
        const short = sums[to]! - sums[from]! < INVERSION.shortBeats;
        return LOG_MOVE[starts[run.from + from]!] + (short ? INVERSION.logShort : 0);
      },
      longest: lengths.length,
    });
    return segments.map(({ state, from, to }) => ({
      ...run,
      bassPlace: state,
      from: run.from + from,
      to: run.from + to,
    }));
  });
}

const LOG_MOVE: Record<StretchStart, number> = {
  offBeat: Math.log(INVERSION.moveBetweenBeats),
  push: Math.log(INVERSION.moveBetweenBeats),
  beat: Math.log(INVERSION.moveOnBeat),
  midBar: Math.log(INVERSION.moveOnStrongBeat),
  downbeat: Math.log(INVERSION.moveOnStrongBeat),
};

/** The parts that fall to the tones of a chord, as shares of 1. */
function shares({ semitones }: ChordType, parts: readonly number[]): number[] {
  const total = semitones.reduce((sum, _, place) => sum + parts[place]!, 0);
  return semitones.map((_, place) => parts[place]! / total);
}

/** Probability of each tone after each, row by row. */
function movesAmong(type: ChordType): Float64Array {
  const goals = shares(type, INVERSION.movedTo);
  return Float64Array.from(
    goals.flatMap((_, before) => goals.map((goal, after) => (before === after ? 0 : goal))),
  );
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
