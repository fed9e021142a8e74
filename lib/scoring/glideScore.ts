import { matchedCount, share } from "./matching";

export interface Glide {
  /** Middle of the glide. */
  atSec: number;
  toMidi: number;
  kind: "pedal" | "bar" | null;
}

export interface ReferenceGlide extends Glide {
  /** Whether ears can tell its kind: several strings sound, and all move alike (bar) or not (pedal). */
  kindIsClear: boolean;
}

/** How many glides are found; counts of several passages add up. */
export interface GlideCounts {
  found: number;
  wanted: number;
  given: number;
  /** Found with the right kind. */
  ofRightKind: number;
  /** The same over those whose kind can be heard, and how many those are. */
  clearOfRightKind: number;
  clear: number;
}

export interface GlideScore {
  recall: number;
  precision: number;
  /** Share of all glides found with the right kind. */
  mechanism: number;
  /** The same over those whose kind can be heard; null where there are none. */
  mechanismClear: number | null;
  /** Right kind among those found; null where none is found. */
  kindOfFound: number | null;
}

/** How far the middle of a glide may stand from where it is marked. */
export const GLIDE_WINDOW_SEC = 0.15;
const WINDOW_SEMITONES = 0.5;

/** Glides matched one to one within 150 ms and 50 cents. */
export function countGlides(reference: readonly ReferenceGlide[], estimate: readonly Glide[]): GlideCounts {
  const candidates = reference.map((wanted) =>
    estimate.flatMap((given, j) => {
      const near = Math.abs(given.atSec - wanted.atSec) <= GLIDE_WINDOW_SEC + 1e-9;
      return near && Math.abs(given.toMidi - wanted.toMidi) <= WINDOW_SEMITONES + 1e-9 ? [j] : [];
    }),
  );
  const ofRightKind = candidates.map((list, i) =>
    list.filter((j) => estimate[j]!.kind === reference[i]!.kind),
  );
  const clear = ofRightKind.filter((_, i) => reference[i]!.kindIsClear);
  const count = (lists: readonly (readonly number[])[]) => matchedCount(lists, estimate.length);
  return {
    found: count(candidates),
    wanted: reference.length,
    given: estimate.length,
    ofRightKind: count(ofRightKind),
    clearOfRightKind: count(clear),
    clear: clear.length,
  };
}

/** Null where there was no glide to be found. */
export function glideScoreOf(counts: GlideCounts): GlideScore | null {
  const { found, wanted, given, ofRightKind, clearOfRightKind, clear } = counts;
  if (wanted === 0) return null;
  return {
    recall: found / wanted,
    precision: given > 0 ? found / given : 0,
    mechanism: ofRightKind / wanted,
    mechanismClear: share(clearOfRightKind, clear),
    kindOfFound: share(ofRightKind, found),
  };
}

/** The score of one passage; null where it has no glide. */
export function glideScore(
  reference: readonly ReferenceGlide[],
  estimate: readonly Glide[],
): GlideScore | null {
  return glideScoreOf(countGlides(reference, estimate));
}
