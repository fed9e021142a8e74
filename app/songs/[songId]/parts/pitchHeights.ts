import type { Midi } from "@/lib/units/quantities";

/** How a lane spends its height, in CSS pixels. */
export interface LaneRoom {
  heightPx: number;
  /** Above the highest pitch, for its number, and below the lowest. */
  topPx: number;
  bottomPx: number;
  /** A half step is never drawn taller than this. */
  tallestStepPx: number;
}

/** How high in a lane each pitch lies: the lowest at the foot, the highest at the top, to half a pixel. */
export function pitchHeights(pitches: Iterable<Midi>, room: LaneRoom): (midi: Midi) => number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const midi of pitches) {
    low = Math.min(low, midi);
    high = Math.max(high, midi);
  }
  const freePx = room.heightPx - room.topPx - room.bottomPx;
  const stepPx = Math.min(room.tallestStepPx, freePx / Math.max(1, high - low));
  const footPx = room.heightPx - room.bottomPx - (freePx - stepPx * Math.max(0, high - low)) / 2;
  return (midi) => Math.round(2 * (footPx - (midi - low) * stepPx)) / 2;
}
