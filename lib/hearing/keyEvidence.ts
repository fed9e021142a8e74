import type { PitchClass } from "@/lib/units/quantities";
import { LOG_CHORD_IN_KEY, logMoveInKey } from "./chordMoves";
import { CHORD_STATES } from "./chordVocabulary";
import type { StretchChroma } from "./chroma";
import { HOMES } from "./harmonyParameters";
import { KRUMHANSL_KESSLER } from "./keyProfiles";
import { KEY_STATES, type KeyState } from "./keyStates";
import type { Segment } from "./segmentModel";
import type { Stretches } from "./stretches";

/**
 * What each stretch says of the key, in nats, up to a constant. A key answers for the pitch classes sounding (their
 * correlation with a profile, {@link KRUMHANSL_KESSLER}), for the chords and for how they follow one another (see
 * `logMoveInKey`), and for where the music comes to rest, since its notes alone do not tell a tonic from its
 * relatives: by the tonic in the bass, by a dominant that resolves to it, and by the first and the last chord (common
 * practice, no source).
 * @param runs the chords heard, over all stretches
 * @returns one row a stretch, one value a key of KEY_STATES
 */
export function keyEvidence(
  chroma: readonly StretchChroma[],
  runs: readonly Segment[],
  { beats }: Pick<Stretches, "beats">,
): Float64Array[] {
  const evidence = chroma.map(({ treble, bass }, i) => {
    const sum = treble.map((value, p) => value + HOMES.bassShare * bass[p]!);
    return Float64Array.from(
      KEY_STATES,
      (key) =>
        beats[i]! *
        (HOMES.profileWeight * profileCorrelation(sum, key) + HOMES.tonicBassWeight * bass[key.tonic]!),
    );
  });
  const sounding = runs.filter(({ state }) => state > 0);
  sounding.forEach((run, r) => {
    const before = sounding[r - 1];
    const rest = restEvidence(before?.state ?? 0, run.state, {
      isFirst: r === 0,
      isLast: r === sounding.length - 1,
    });
    KEY_STATES.forEach((key, k) => {
      for (let i = run.from; i < run.to; i++) {
        evidence[i]![k]! += HOMES.chordWeight * beats[i]! * LOG_CHORD_IN_KEY[k]![run.state]!;
      }
      const move = before ? HOMES.moveWeight * logMoveInKey(k, before.state, run.state) : 0;
      evidence[run.from]![k]! += move + rest(key);
    });
  });
  return evidence;
}

/** What a chord says about the key by its place: after its dominant, first, or last. */
function restEvidence(
  before: number,
  here: number,
  place: { isFirst: boolean; isLast: boolean },
): (key: KeyState) => number {
  const chord = CHORD_STATES[here]!.chord!;
  const prior = CHORD_STATES[before]!.chord;
  const minor = chord.type.semitones[1] === 3;
  const isDominant = prior?.type.semitones[1] === 4 && prior.root === (chord.root + 7) % 12;
  const cadence = isDominant ? (prior.type.quality === "7" ? HOMES.seventhCadence : HOMES.cadence) : 0;
  const evidence = cadence + (place.isFirst ? HOMES.firstChord : 0) + (place.isLast ? HOMES.lastChord : 0);
  return ({ tonic, mode }) => (chord.root === tonic && minor === (mode === "minor") ? evidence : 0);
}

/** Pearson correlation of a chroma with the profile of a key (Krumhansl 1990), -1 to 1. */
export function profileCorrelation(
  chroma: Float64Array,
  key: { tonic: PitchClass; mode: KeyState["mode"] },
): number {
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
