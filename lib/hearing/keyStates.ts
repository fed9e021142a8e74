import type { Mode } from "@/lib/theory/key";
import type { PitchClass } from "@/lib/units/quantities";

/** A key by number: 12 major keys from C, then 12 minor. */
export interface KeyState {
  tonic: PitchClass;
  mode: Mode;
}

export const KEY_STATES: readonly KeyState[] = (["major", "minor"] as const).flatMap((mode) =>
  Array.from({ length: 12 }, (_, tonic) => ({ tonic, mode })),
);
