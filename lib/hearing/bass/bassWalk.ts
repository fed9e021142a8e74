import type { Certainty } from "../Hearing";
import { BASS_PITCHES, type BassEvidence } from "./BassEvidence";
import { BASS } from "./parameters";

/** A note of the bass on the frames of its evidence. */
export interface BassRun {
  /** Semitones above the lowest note of a bass. */
  pitch: number;
  /** First frame and the one after the last. */
  from: number;
  to: number;
  /** Mean probability of the pitch over the note, given the whole record. */
  certain: Certainty;
}

const REST = BASS_PITCHES;
/** States: attack of each pitch, then each pitch held, then rest. */
const HELD = BASS_PITCHES;
const SILENT = 2 * BASS_PITCHES;
const STATES = 2 * BASS_PITCHES + 1;

/**
 * The likeliest bass line: a hidden Markov model of notes, each an attack of one frame and a held part, and rests
 * between them, with a bigram over intervals (M. Ryynanen and A. Klapuri, "Automatic transcription of melody,
 * bass line, and chords in polyphonic music", Computer Music Journal 32 (2008)). A held note can go on, end, or be
 * struck again.
 * @param begins for each frame, probability that a note begins there, before any pitch is heard
 */
export function walkBass(evidence: BassEvidence, begins: Float64Array): BassRun[] {
  const likelihoods = stateLikelihoods(evidence);
  const path = likeliestStates(likelihoods, begins);
  const certain = pitchPosteriors(likelihoods, begins);
  const runs: BassRun[] = [];
  let now: BassRun | null = null;
  path.forEach((state, t) => {
    if (state === SILENT) now = null;
    else if (state < HELD) {
      now = { pitch: state, from: t, to: t + 1, certain: 0 };
      runs.push(now);
    } else if (now) now.to = t + 1;
  });
  for (const run of runs) {
    let sum = 0;
    for (let t = run.from; t < run.to; t++) sum += certain[t * BASS_PITCHES + run.pitch]!;
    run.certain = sum / (run.to - run.from);
  }
  return runs;
}

/** Natural log of the probability of each pitch after each pitch, and after a rest (last row). */
const LOG_NEXT: readonly Float64Array[] = Array.from({ length: BASS_PITCHES + 1 }, (_, before) => {
  const weights = Float64Array.from({ length: BASS_PITCHES }, (_, pitch) => {
    if (before === REST) return 1;
    const interval = Math.abs(pitch - before);
    return BASS.intervals[interval] ?? BASS.wideInterval;
  });
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => Math.log(weight / total));
});
const NEXT = LOG_NEXT.map((row) => row.map(Math.exp));

/** Log-likelihood of each state in each frame, frame by frame. */
function stateLikelihoods({ sounding, onset }: BassEvidence): Float64Array {
  const result = new Float64Array(sounding.rows * STATES);
  for (let t = 0; t < sounding.rows; t++) {
    const heard = sounding.row(t);
    const struck = onset.row(t);
    const at = t * STATES;
    for (let p = 0; p < BASS_PITCHES; p++) {
      const held = BASS.soundingWeight * heard[p]!;
      result[at + HELD + p] = held;
      result[at + p] = held + BASS.onsetWeight * struck[p]!;
    }
    result[at + SILENT] = BASS.soundingWeight * heard[REST]!;
  }
  return result;
}

function likeliestStates(likelihoods: Float64Array, begins: Float64Array): Uint8Array {
  const rows = likelihoods.length / STATES;
  const cameFrom = new Uint8Array(rows * STATES);
  let scores = new Float64Array(STATES).fill(Number.NEGATIVE_INFINITY);
  let next = new Float64Array(STATES);
  scores[SILENT] = 0;
  const end = Math.log(BASS.endPerFrame);
  const silentAt = SILENT;
  for (let t = 0; t < rows; t++) {
    const at = t * STATES;
    const begin = Math.log(begins[t]!);
    const wait = Math.log1p(-begins[t]!);
    const goOn = Math.log(1 - begins[t]! - BASS.endPerFrame);
    let restFrom = silentAt;
    let restScore = scores[SILENT]! + wait;
    for (let p = 0; p < BASS_PITCHES; p++) {
      const held = scores[HELD + p]!;
      if (held + end > restScore) {
        restScore = held + end;
        restFrom = HELD + p;
      }
      let from = HELD + p;
      let score = held + goOn;
      if (scores[p]! > score) {
        from = p;
        score = scores[p]!;
      }
      next[HELD + p] = score + likelihoods[at + HELD + p]!;
      cameFrom[at + HELD + p] = from;
    }
    next[SILENT] = restScore + likelihoods[at + SILENT]!;
    cameFrom[at + SILENT] = restFrom;
    for (let p = 0; p < BASS_PITCHES; p++) {
      let from = SILENT;
      let score = scores[SILENT]! + LOG_NEXT[REST]![p]!;
      for (let q = 0; q < BASS_PITCHES; q++) {
        const moved = scores[HELD + q]! + LOG_NEXT[q]![p]!;
        if (moved > score) {
          score = moved;
          from = HELD + q;
        }
      }
      next[p] = score + begin + likelihoods[at + p]!;
      cameFrom[at + p] = from;
    }
    [scores, next] = [next, scores];
  }
  const path = new Uint8Array(rows);
  let state = scores.indexOf(scores.reduce((most, score) => Math.max(most, score), Number.NEGATIVE_INFINITY));
  for (let t = rows - 1; t >= 0; t--) {
    path[t] = state;
    state = cameFrom[t * STATES + state]!;
  }
  return path;
}

/**
 * Probability of each pitch, struck or held, in each frame, given all frames: forward and backward sums.
 * @param weights the log-likelihoods of all states; written over, since long records make them many
 */
function pitchPosteriors(weights: Float64Array, begins: Float64Array): Float32Array {
  const rows = weights.length / STATES;
  for (let t = 0; t < rows; t++) {
    const row = weights.subarray(t * STATES, (t + 1) * STATES);
    const top = row.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
    for (let s = 0; s < STATES; s++) row[s] = Math.exp(row[s]! - top);
  }
  const forward = new Float64Array(rows * STATES);
  let before = new Float64Array(STATES);
  before[SILENT] = 1;
  for (let t = 0; t < rows; t++) {
    const row = forward.subarray(t * STATES, (t + 1) * STATES);
    const begin = begins[t]!;
    let total = 0;
    let toRest = before[SILENT]! * (1 - begin);
    for (let p = 0; p < BASS_PITCHES; p++) {
      row[HELD + p] = before[HELD + p]! * (1 - begin - BASS.endPerFrame) + before[p]!;
      toRest += before[HELD + p]! * BASS.endPerFrame;
      let into = before[SILENT]! * NEXT[REST]![p]!;
      for (let q = 0; q < BASS_PITCHES; q++) into += before[HELD + q]! * NEXT[q]![p]!;
      row[p] = into * begin;
    }
    row[SILENT] = toRest;
    for (let s = 0; s < STATES; s++) {
      row[s]! *= weights[t * STATES + s]!;
      total += row[s]!;
    }
    for (let s = 0; s < STATES; s++) row[s]! /= total;
    before = row;
  }
  const result = new Float32Array(rows * BASS_PITCHES);
  let backward = new Float64Array(STATES).fill(1);
  for (let t = rows - 1; t >= 0; t--) {
    let total = 0;
    const here = forward.subarray(t * STATES, (t + 1) * STATES);
    for (let s = 0; s < STATES; s++) total += here[s]! * backward[s]!;
    for (let p = 0; p < BASS_PITCHES; p++) {
      result[t * BASS_PITCHES + p] =
        (here[p]! * backward[p]! + here[HELD + p]! * backward[HELD + p]!) / total;
    }
    const begin = begins[t]!;
    const ahead = new Float64Array(STATES);
    for (let s = 0; s < STATES; s++) ahead[s] = backward[s]! * weights[t * STATES + s]!;
    const earlier = new Float64Array(STATES);
    let sum = 0;
    for (let q = 0; q < BASS_PITCHES; q++) {
      let struck = 0;
      for (let p = 0; p < BASS_PITCHES; p++) struck += NEXT[q]![p]! * ahead[p]!;
      earlier[HELD + q] =
        struck * begin +
        (1 - begin - BASS.endPerFrame) * ahead[HELD + q]! +
        BASS.endPerFrame * ahead[SILENT]!;
      earlier[q] = ahead[HELD + q]!;
      sum += earlier[HELD + q]! + earlier[q]!;
    }
    let struck = 0;
    for (let p = 0; p < BASS_PITCHES; p++) struck += NEXT[REST]![p]! * ahead[p]!;
    earlier[SILENT] = struck * begin + (1 - begin) * ahead[SILENT]!;
    sum += earlier[SILENT]!;
    for (let s = 0; s < STATES; s++) earlier[s]! /= sum;
    backward = earlier;
  }
  return result;
}
