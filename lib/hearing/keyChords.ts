import type { Shorthand } from "@/lib/theory/harte";
import type { Mode } from "@/lib/theory/key";

/** How often each quality stands on a root, `above` semitones over the tonic; in parts of about 100. */
export interface KeyChordRow {
  above: number;
  qualities: Partial<Record<Shorthand, number>>;
}

/**
 * Chords of a key. Major: the shares of the roots follow T. de Clercq and D. Temperley, "A corpus analysis of
 * rock harmony", Popular Music 30 (2011), table 2 (I 33 %, IV 23 %, V 16 %, bVII 8 %, VI 7 %, II 4 %, bVI 4 %,
 * III 2 %, bIII 3 %; from memory), with more II and VI and less bVII, as in country songs. How each share is
 * split among qualities, and the whole of the minor table: common practice, no source.
 */
export const KEY_CHORDS: Record<Mode, readonly KeyChordRow[]> = {
  major: [
    { above: 0, qualities: { maj: 29, "7": 4, maj7: 2, sus4: 0.7, min: 0.3 } },
    { above: 1, qualities: { dim: 0.3, maj: 0.2 } },
    { above: 2, qualities: { min: 5, min7: 3, maj: 1.2, "7": 2.2 } },
    { above: 3, qualities: { maj: 0.8, dim: 0.1 } },
    { above: 4, qualities: { min: 2.5, min7: 1, maj: 0.5, "7": 0.8 } },
    { above: 5, qualities: { maj: 19.5, maj7: 1.5, "7": 1.5, min: 1 } },
    { above: 6, qualities: { dim: 0.4, min: 0.1 } },
    { above: 7, qualities: { maj: 14, "7": 7, sus4: 2, min: 0.5 } },
    { above: 8, qualities: { maj: 0.8, dim: 0.2 } },
    { above: 9, qualities: { min: 8, min7: 2.5, maj: 0.5, "7": 0.9 } },
    { above: 10, qualities: { maj: 5, "7": 0.2 } },
    { above: 11, qualities: { dim: 0.4, min: 0.2, maj: 0.2, "7": 0.1 } },
  ],
  minor: [
    { above: 0, qualities: { min: 24, min7: 3, maj: 0.8, sus4: 0.5 } },
    { above: 1, qualities: { maj: 0.3 } },
    { above: 2, qualities: { dim: 0.8, min: 0.4, maj: 0.2 } },
    { above: 3, qualities: { maj: 8, maj7: 0.8 } },
    { above: 4, qualities: { dim: 0.1 } },
    { above: 5, qualities: { min: 9, min7: 2, maj: 1.5, "7": 0.4 } },
    { above: 6, qualities: { dim: 0.2 } },
    { above: 7, qualities: { maj: 6, "7": 5, min: 4, min7: 1, sus4: 1 } },
    { above: 8, qualities: { maj: 9, maj7: 1.5, "7": 0.3 } },
    { above: 9, qualities: { dim: 0.3, min: 0.1 } },
    { above: 10, qualities: { maj: 9, "7": 0.8, min: 0.3 } },
    { above: 11, qualities: { dim: 0.6 } },
  ],
};

/** Roots, in semitones above the tonic, that often and sometimes follow a root. */
export interface RootMoves {
  often: readonly number[];
  sometimes: readonly number[];
}

/**
 * Which roots follow which, by the root before: the table of usual root progressions of W. Piston, "Harmony" (1941;
 * from memory), with the plagal and flat-side moves of rock and country added (IV is the commonest chord before I: de
 * Clercq & Temperley 2011; bVII and bVI: common practice, no source).
 */
export const USUAL_MOVES: Record<Mode, Partial<Record<number, RootMoves>>> = {
  major: {
    0: { often: [5, 7], sometimes: [9] },
    2: { often: [7], sometimes: [5, 9] },
    4: { often: [9], sometimes: [5] },
    5: { often: [7, 0], sometimes: [2] },
    7: { often: [0], sometimes: [9, 5] },
    9: { often: [2, 7], sometimes: [4, 5] },
    10: { often: [5, 0], sometimes: [] },
    11: { often: [4], sometimes: [0] },
  },
  minor: {
    0: { often: [5, 7], sometimes: [8, 10] },
    2: { often: [7], sometimes: [5, 8] },
    3: { often: [8], sometimes: [5, 10] },
    5: { often: [7, 0], sometimes: [2, 10] },
    7: { often: [0], sometimes: [8, 5] },
    8: { often: [10, 7], sometimes: [3, 5] },
    10: { often: [3, 0], sometimes: [8] },
    11: { often: [0], sometimes: [] },
  },
};
