import type { Midi } from "@/lib/units/quantities";

/** Height of the bass lane, in CSS pixels. */
export const BASS_PX = 56;
/** Room above the highest note for its number, and below the lowest. */
const TOP_PX = 18;
const BOTTOM_PX = 6;
/** A half step is never drawn taller than this. */
const TALLEST_STEP_PX = 4;

/** How high in the lane each pitch lies: the song's lowest note at the foot, its highest at the top. */
export function bassY(bass: readonly { midi: Midi }[]): (midi: Midi) => number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { midi } of bass) {
    low = Math.min(low, midi);
    high = Math.max(high, midi);
  }
  const room = BASS_PX - TOP_PX - BOTTOM_PX;
  const step = Math.min(TALLEST_STEP_PX, room / Math.max(1, high - low));
  const foot = BASS_PX - BOTTOM_PX - (room - step * Math.max(0, high - low)) / 2;
  return (midi) => Math.round(foot - (midi - low) * step);
}
