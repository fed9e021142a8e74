import { textScale } from "@/lib/client/page/textScale";
import type { Midi } from "@/lib/units/quantities";
import { pitchHeights } from "./pitchHeights";

const BASS_PX = 56;
const ROOM = { topPx: 18, bottomPx: 6, tallestStepPx: 4 };

/** Height of the bass lane, in CSS pixels; as large as its numbers. */
export function bassPx(): number {
  return BASS_PX * textScale();
}

/** How high in the lane each pitch lies: the song's lowest note at the foot, its highest at the top. */
export function bassY(bass: readonly { midi: Midi }[]): (midi: Midi) => number {
  return pitchHeights(
    bass.map(({ midi }) => midi),
    { ...ROOM, heightPx: bassPx(), topPx: ROOM.topPx * textScale() },
  );
}
