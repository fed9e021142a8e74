import type { Seconds } from "@/lib/units/quantities";
import { BARS } from "./beatParameters";
import { type BarsStanding, barsCertainty } from "./gridCertainty";
import type { Certainty } from "./Hearing";
import { sample } from "./levelFeatures";
import { logOdds } from "./logOdds";
import type { BeatEvidence } from "./novelty";
import { ONSETS } from "./parameters";

/** The place of each beat in its bar, and the metre. */
export interface HeardBars {
  /** One a beat, 1 = downbeat. */
  inBar: number[];
  beatsPerBar: number;
  /** How sure it is that bars begin there, if the beats are right; 0 where no beat stands out. */
  confidence: Certainty;
  standing: BarsStanding;
}

/**
 * Downbeats and metre. Each beat has an accent: how much harmony changes there (bar lines attract changes of
 * chord: H. Papadopoulos and G. Peeters, "Joint estimation of chords and downbeats from an audio signal", IEEE
 * TASLP 19 (2011)), how strong bass and onset are, and what a learned ear says where there is one. For each metre a
 * hidden Markov model walks through the places of the bar, the bar pointer of N. Whiteley, A. T. Cemgil and S. Godsill
 * ("Bayesian modelling of temporal structure in musical audio", ISMIR 2006) from beat to beat, with an accent expected
 * at each, and may slip (a bar cut short or drawn out) at a cost; the likeliest metre and walk win.
 * @param changes for each beat, 1 where a chord changes there, else 0
 */
export function hearBars(beats: Seconds[], evidence: BeatEvidence, changes: number[]): HeardBars {
  const accents = accentsOf(beats, evidence, changes);
  const learned = learnedNats(beats, evidence);
  const signalWeight = evidence.learned ? BARS.signalShare : 1;
  const readings = BARS.metres.map(({ accents: expected, cost }) => {
    const gain: Gain = (beat, place) =>
      signalWeight * (expected[place]! * accents[beat]! - expected[place]! ** 2 / 2) +
      (place === 0 ? learned[beat]! : -learned[beat]!);
    return { gain, size: expected.length, ...walk(beats.length, expected.length, gain, cost) };
  });
  readings.sort((a, b) => b.score - a.score);
  const { places, size, gain, score } = readings[0]!;
  const begunLater = Array.from(
    { length: size - 1 },
    (_, k) => total(places, gain) - total(rotated(places, k + 1, size), gain),
  );
  const isHeard = accents.some((accent) => accent !== 0) || learned.some((nats) => nats !== 0);
  const count = Math.max(1, beats.length);
  const standing = {
    margin: Math.min(score - readings[1]!.score, ...begunLater) / count,
    slips: places.filter((place, i) => i > 0 && place !== (places[i - 1]! + 1) % size).length / count,
  };
  return {
    inBar: places.map((place) => place + 1),
    beatsPerBar: size,
    confidence: isHeard ? barsCertainty(standing) : 0,
    standing,
  };
}

/** Nats for a beat in a place of the bar. */
type Gain = (beat: number, place: number) => number;

function total(places: readonly number[], gain: Gain): number {
  return places.reduce((sum, place, beat) => sum + gain(beat, place), 0);
}

function rotated(places: readonly number[], by: number, size: number): number[] {
  return places.map((place) => (place + by) % size);
}

function accentsOf(beats: Seconds[], evidence: BeatEvidence, changes: number[]): number[] {
  const { frameRateHz } = evidence;
  const heardAt = beats.map((time) => time + ONSETS.delaySec);
  const harmony = standardised(sample(evidence.harmony, heardAt, frameRateHz, 0));
  const low = standardised(sample(evidence.low, heardAt, frameRateHz, 1));
  const onset = standardised(sample(evidence.onset, heardAt, frameRateHz, 1));
  const chord = standardised(changes);
  return harmony.map(
    (value, i) =>
      BARS.harmonyWeight * value +
      BARS.lowWeight * low[i]! +
      BARS.onsetWeight * onset[i]! +
      BARS.changeWeight * chord[i]!,
  );
}

/** For each beat, nats for a downbeat there and against any other place, by a learned ear; 0 where there is none. */
function learnedNats(beats: Seconds[], { learned, frameRateHz }: BeatEvidence): number[] {
  if (!learned) return beats.map(() => 0);
  const heardAt = beats.map((time) => time + ONSETS.delaySec);
  return sample(learned.downbeat, heardAt, frameRateHz, 1).map(
    (probability) => (BARS.learnedWeight / 2) * logOdds(probability, BARS.surest),
  );
}

function standardised(values: number[]): number[] {
  const count = Math.max(1, values.length);
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const spread = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / count);
  return values.map((value) => (spread > 1e-9 ? (value - mean) / spread : 0));
}

/**
 * Viterbi through one metre, slips at a cost.
 * @param gain nats for a beat in a place of the bar: that of unit-variance Gaussian accents about those expected,
 *   and what a learned ear says
 */
function walk(count: number, size: number, gain: Gain, cost: number): { places: number[]; score: number } {
  let scores = Array.from({ length: size }, (_, place) => (count > 0 ? gain(0, place) : 0));
  const cameFrom: number[][] = [];
  for (let i = 1; i < count; i++) {
    const from: number[] = [];
    const next = scores.map((_, place) => {
      let origin = (place + size - 1) % size;
      let top = scores[origin]!;
      // A bar may end early or a downbeat may be put off: any place can be followed by a downbeat or a repeat.
      for (let other = 0; other < size; other++) {
        if (place !== 0 && other !== place) continue;
        if (scores[other]! - BARS.slipCost > top) {
          top = scores[other]! - BARS.slipCost;
          origin = other;
        }
      }
      from.push(origin);
      return top + gain(i, place);
    });
    cameFrom.push(from);
    scores = next;
  }
  const score = Math.max(...scores);
  let place = scores.indexOf(score);
  const places = count > 0 ? [place] : [];
  for (let i = cameFrom.length - 1; i >= 0; i--) {
    place = cameFrom[i]![place]!;
    places.push(place);
  }
  return { places: places.reverse(), score: score - cost * count };
}
