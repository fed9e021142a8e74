import type { Mode } from "@/lib/theory/key";
import type { PitchClass } from "@/lib/units/quantities";
import { type ChordRun, normalisedLog, plainLogPrior } from "./changes";
import { CHORD_STATES } from "./chordVocabulary";
import type { StretchChroma } from "./chroma";
import { KEY_CHORDS } from "./keyChords";
import { KRUMHANSL_KESSLER } from "./keyProfiles";
import { HOMES } from "./parameters";
import { likeliestPath, posteriors, type StayOrChange } from "./stayOrChange";

/** A key by number: 12 major keys from C, then 12 minor. */
export interface KeyState {
  tonic: PitchClass;
  mode: Mode;
}

export const KEY_STATES: readonly KeyState[] = (["major", "minor"] as const).flatMap((mode) =>
  Array.from({ length: 12 }, (_, tonic) => ({ tonic, mode })),
);

/** Log probability of each chord state in each key: the table of the key, mixed with the plain prior. */
export const LOG_CHORD_IN_KEY: readonly Float64Array[] = KEY_STATES.map(({ tonic, mode }) => {
  const plain = plainLogPrior();
  const rows = KEY_CHORDS[mode];
  const shares = CHORD_STATES.map(({ chord }) => {
    if (!chord) return 0;
    return rows[(chord.root - tonic + 12) % 12]?.qualities[chord.type.quality] ?? 0;
  });
  const total = shares.reduce((sum, value) => sum + value, 0);
  return normalisedLog(
    shares.map((share, s) =>
      Math.log((1 - HOMES.plainShare) * (share / total) + HOMES.plainShare * Math.exp(plain[s]!)),
    ),
  );
});

/** The keys along the record. */
export interface KeyWalk {
  /** Key state of each stretch. */
  path: number[];
  /** Probability of each key state in each stretch. */
  certain: Float64Array[];
}

/**
 * The key in each stretch: a hidden Markov model over 24 keys that seldom changes (C.-H. Chuan and E. Chew,
 * "Audio key finding", EURASIP JASP 2007, and Papadopoulos & Peeters 2012 hear local keys so). A key answers
 * for the pitch classes sounding (correlation with a profile, {@link KRUMHANSL_KESSLER}), for the chords (how
 * common each is in the key), and for where the music comes to rest: a dominant that resolves to the tonic,
 * and the first and last chord.
 * @param beatShare length of each stretch in beats
 */
export function hearKeys(stretches: StretchChroma[], runs: ChordRun[], beatShare: number[]): KeyWalk {
  const likelihoods = stretches.map(({ treble, bass }, i) => {
    const sum = treble.map((value, p) => value + HOMES.bassShare * bass[p]!);
    return Float64Array.from(
      KEY_STATES,
      (key) => HOMES.profileWeight * beatShare[i]! * profileCorrelation(sum, key),
    );
  });
  runs.forEach((run, r) => {
    const chord = CHORD_STATES[run.state]!.chord;
    if (!chord) return;
    for (let i = run.from; i < run.to; i++) {
      const weight = HOMES.chordWeight * beatShare[i]!;
      KEY_STATES.forEach((_, k) => {
        likelihoods[i]![k]! += weight * LOG_CHORD_IN_KEY[k]![run.state]!;
      });
    }
    const rest = restEvidence(runs, r);
    KEY_STATES.forEach((key, k) => {
      likelihoods[run.from]![k]! += rest(key);
    });
  });
  const model: StayOrChange = {
    likelihoods,
    changeProbability: beatShare.map((beats) => Math.min(0.5, HOMES.changePerBeat * beats)),
    logTargets: likelihoods.map(() => EVEN_KEYS),
  };
  return { path: likeliestPath(model), certain: posteriors(model) };
}

const EVEN_KEYS = new Float64Array(KEY_STATES.length).fill(-Math.log(KEY_STATES.length));

/** What a run of one chord says about the key by its place: after its dominant, first, or last. */
function restEvidence(runs: ChordRun[], index: number): (key: KeyState) => number {
  const here = CHORD_STATES[runs[index]!.state]!.chord;
  const before = index > 0 ? CHORD_STATES[runs[index - 1]!.state]!.chord : null;
  const sounding = (run: ChordRun): boolean => CHORD_STATES[run.state]!.chord !== null;
  const isFirst = runs.findIndex(sounding) === index;
  const isLast = runs.findLastIndex(sounding) === index;
  const minor = here ? here.type.semitones[1] === 3 : false;
  const dominant = before ? before.type.semitones[1] === 4 : false;
  const seventh = before?.type.quality === "7";
  return ({ tonic, mode }) => {
    if (!here || here.root !== tonic || minor !== (mode === "minor")) return 0;
    let evidence = 0;
    if (before && dominant && before.root === (tonic + 7) % 12) {
      evidence += seventh ? HOMES.seventhCadence : HOMES.cadence;
    }
    if (isFirst) evidence += HOMES.firstChord;
    if (isLast) evidence += HOMES.lastChord;
    return evidence;
  };
}

/** Pearson correlation of a chroma with the profile of a key (Krumhansl 1990), -1 to 1. */
function profileCorrelation(chroma: Float64Array, key: KeyState): number {
  const profile = KRUMHANSL_KESSLER[key.mode];
  let sumX = 0;
  let sumY = 0;
  for (let p = 0; p < 12; p++) {
    sumX += chroma[p]!;
    sumY += profile[p]!;
  }
  let xy = 0;
  let xx = 0;
  let yy = 0;
  for (let p = 0; p < 12; p++) {
    const x = chroma[(p + key.tonic) % 12]! - sumX / 12;
    const y = profile[p]! - sumY / 12;
    xy += x * y;
    xx += x * x;
    yy += y * y;
  }
  return xx > 0 ? xy / Math.sqrt(xx * yy) : 0;
}

/** Log prior of the chord states in each stretch, once the keys are known: the mixture over the likely keys. */
export function chordPriorInKeys(walk: KeyWalk): Float64Array[] {
  const inKey = LOG_CHORD_IN_KEY.map((row) => row.map(Math.exp));
  return walk.certain.map((keys) => {
    const mixed = new Float64Array(CHORD_STATES.length);
    for (let k = 0; k < keys.length; k++) {
      if (keys[k]! < 1e-4) continue;
      for (let s = 0; s < mixed.length; s++) mixed[s]! += keys[k]! * inKey[k]![s]!;
    }
    return mixed.map(Math.log);
  });
}
