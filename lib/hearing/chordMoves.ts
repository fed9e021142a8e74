import type { Mode } from "@/lib/theory/key";
import { withinOctave } from "@/lib/units/pitch";
import { CHORD_STATES } from "./chordVocabulary";
import { CHORD_MOVES, HOMES } from "./harmonyParameters";
import { KEY_CHORDS, USUAL_MOVES } from "./keyChords";
import { KEY_STATES } from "./keyStates";
import { plainLogPrior } from "./plainPrior";

const COUNT = CHORD_STATES.length;
/** Key probabilities nearer than this give one table. */
const SAME = 0.02;
/** Keys less likely than this are left out of a mixture. */
const FAINT = 0.001;

/** Log probability of each chord state in each key: the table of the key, mixed with the plain prior. */
export const LOG_CHORD_IN_KEY: readonly Float64Array[] = KEY_STATES.map(({ tonic, mode }) =>
  chordShares(mode).map((_, s, shares) => Math.log(shares[turned(s, -tonic)]!)),
);

/** The same given the chord before, row by row; chords of C, from which those of other keys are turned. */
const MOVES_IN_C: Record<Mode, Float64Array> = { major: movesInC("major"), minor: movesInC("minor") };

/**
 * Log probability of a chord after another in a key (chord progressions that depend on the key: C. Raphael and
 * J. Stoddard, "Functional harmonic analysis using probabilistic models", Computer Music Journal 28 (2004); K. Noland
 * and M. Sandler, "Key estimation using a hidden Markov model", ISMIR 2006).
 */
export function logMoveInKey(key: number, from: number, to: number): number {
  const { tonic, mode } = KEY_STATES[key]!;
  return Math.log(MOVES_IN_C[mode][turned(from, -tonic) * COUNT + turned(to, -tonic)]!);
}

/**
 * Tables of moves for each step, mixed over the keys that are likely there.
 * @param keys probability of each of KEY_STATES at each step
 */
export function movesInKeys(keys: readonly Float64Array[], temperature = 1): (step: number) => Float64Array {
  let made = -1;
  let table = new Float64Array(0);
  // Each step takes the table of an earlier one with about the same keys, where the last made is such a one.
  const source: number[] = [];
  keys.forEach((row, step) => {
    const last = step > 0 ? source[step - 1]! : -1;
    const alike = last >= 0 && row.every((value, k) => Math.abs(value - keys[last]![k]!) < SAME);
    source.push(alike ? last : step);
  });
  return (step) => {
    const from = source[step]!;
    if (from !== made) {
      table = mixed(keys[from]!);
      if (temperature !== 1) table = table.map((value) => value ** (1 / temperature));
      made = from;
    }
    return table;
  };
}

function mixed(keys: Float64Array): Float64Array<ArrayBuffer> {
  const table = new Float64Array(COUNT * COUNT);
  const faint = KEY_STATES.map((_, k) => keys[k]! < FAINT);
  const kept = keys.reduce((sum, value, k) => sum + (faint[k] ? 0 : value), 0);
  KEY_STATES.forEach(({ tonic, mode }, k) => {
    if (faint[k]) return;
    const share = keys[k]! / kept;
    const moves = MOVES_IN_C[mode];
    const order = CHORD_STATES.map((_, s) => turned(s, -tonic));
    for (let i = 0; i < COUNT; i++) {
      const row = order[i]! * COUNT;
      for (let s = 0; s < COUNT; s++) table[i * COUNT + s]! += share * moves[row + order[s]!]!;
    }
  });
  return table;
}

/** The state whose chord lies so many semitones above; none stays none. */
export function turned(state: number, semitones: number): number {
  if (state === 0) return 0;
  const root = (state - 1) % 12;
  return state - root + withinOctave(root + semitones);
}

function chordShares(mode: Mode): Float64Array {
  const plain = plainLogPrior();
  const rows = KEY_CHORDS[mode];
  const shares = CHORD_STATES.map(({ chord }) =>
    chord ? (rows[chord.root]?.qualities[chord.type.quality] ?? 0) : 0,
  );
  const total = shares.reduce((sum, value) => sum + value, 0);
  return Float64Array.from(
    shares,
    (share, s) => (1 - HOMES.plainShare) * (share / total) + HOMES.plainShare * Math.exp(plain[s]!),
  );
}

function movesInC(mode: Mode): Float64Array {
  const shares = chordShares(mode);
  const usual = USUAL_MOVES[mode];
  const table = new Float64Array(COUNT * COUNT);
  CHORD_STATES.forEach(({ chord: before }, i) => {
    const row = CHORD_STATES.map(({ chord: after }, s) => {
      if (i === s) return 0;
      if (!before || !after) return shares[s]!;
      const up = (after.root - before.root + 12) % 12;
      const { quality } = before.type;
      const leads = (quality === "7" && up === 5) || (quality === "dim" && up === 1);
      const listed = usual[before.root];
      const factor = listed?.often.includes(after.root)
        ? CHORD_MOVES.often
        : listed?.sometimes.includes(after.root)
          ? CHORD_MOVES.sometimes
          : 1;
      return shares[s]! * Math.max(factor, leads ? CHORD_MOVES.leading : 1);
    });
    const total = row.reduce((sum, value) => sum + value, 0);
    row.forEach((value, s) => {
      table[i * COUNT + s] = i === s ? CHORD_MOVES.again : ((1 - CHORD_MOVES.again) * value) / total;
    });
  });
  return table;
}
