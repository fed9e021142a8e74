import { matchedCount } from "./matching";

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

/** Glides matched one to one within 150 ms and 50 cents; null where the passage has none. */
export function glideScore(
  reference: readonly ReferenceGlide[],
  estimate: readonly Glide[],
): GlideScore | null {
  if (reference.length === 0) return null;
  const candidates = reference.map((wanted) =>
    estimate.flatMap((given, j) => {
      const near = Math.abs(given.atSec - wanted.atSec) <= GLIDE_WINDOW_SEC + 1e-9;
      return near && Math.abs(given.toMidi - wanted.toMidi) <= WINDOW_SEMITONES + 1e-9 ? [j] : [];
    }),
  );
  const ofRightKind = candidates.map((list, i) =>
    list.filter((j) => estimate[j]!.kind === reference[i]!.kind),
  );
  const count = (lists: readonly (readonly number[])[]) => matchedCount(lists, estimate.length);
  const found = count(candidates);
  const right = count(ofRightKind);
  const clear = ofRightKind.filter((_, i) => reference[i]!.kindIsClear);
  return {
    recall: found / reference.length,
    precision: estimate.length > 0 ? found / estimate.length : 0,
    mechanism: right / reference.length,
    mechanismClear: clear.length > 0 ? count(clear) / clear.length : null,
    kindOfFound: found > 0 ? right / found : null,
  };
}
