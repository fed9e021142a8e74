import type { Midi } from "@/lib/units/quantities";
import { pitchHeights } from "./pitchHeights";

/** Height of the bass lane, in CSS pixels. */
export const BASS_PX = 56;
const ROOM = { heightPx: BASS_PX, topPx: 18, bottomPx: 6, tallestStepPx: 4 };

/** How high in the lane each pitch lies: the song's lowest note at the foot, its highest at the top. */
export function bassY(bass: readonly { midi: Midi }[]): (midi: Midi) => number {
  return pitchHeights(
    bass.map(({ midi }) => midi),
    ROOM,
  );
}
