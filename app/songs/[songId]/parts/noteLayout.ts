import { textScale } from "@/lib/client/page/textScale";
import { noteTrace, type TracedNote, traceMidiAt } from "@/lib/client/song/noteTrace";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { pitchHeights } from "./pitchHeights";

const NOTES_PX = 120;
const NOTES_AND_BAND_PX = 184;
const ROOM = { topPx: 18, bottomPx: 8, tallestStepPx: 5 };

/** Height of the lane of heard notes, in CSS pixels: as large as its numbers, and more with the band's beneath the steel's. */
export function notesPx(hasBand: boolean): number {
  return (hasBand ? NOTES_AND_BAND_PX : NOTES_PX) * textScale();
}

/** How high in the lane each pitch lies: the lowest that any note reaches at the foot, the highest at the top. */
export function noteY(
  notes: readonly Pick<TracedNote, "midi" | "glides">[],
  heightPx: number,
): (midi: Midi) => number {
  const reached = notes.flatMap(({ midi, glides }) => [midi, ...glides.map(({ toMidi }) => toMidi)]);
  return pitchHeights(reached, { ...ROOM, heightPx, topPx: ROOM.topPx * textScale() });
}

/** The trace of a note as the data of an SVG path. */
export function tracePath(
  note: TracedNote,
  toPx: (timeSec: Seconds) => number,
  yOf: (midi: Midi) => number,
): string {
  const [first, ...rest] = noteTrace(note);
  if (!first) return "";
  const from = toPx(first.timeSec);
  const points = rest.map(({ timeSec, midi }) => ({ x: toPx(timeSec), y: yOf(midi) }));
  const last = points.at(-1);
  // A little air before what follows on the same pitch, and never so short that nothing is seen.
  if (last) last.x = Math.max(from + 2, last.x - 2, points.at(-2)?.x ?? 0);
  return `M${from} ${yOf(first.midi)}${points.map(({ x, y }) => `L${x} ${y}`).join("")}`;
}

/** A click this near to a trace means it. */
const REACH_PX = 14;

/** The note whose trace lies nearest to a point of the lane; null where none is near. */
export function noteAt<N extends TracedNote>(
  notes: readonly N[],
  at: { timeSec: Seconds; y: number },
  pxPerSec: number,
  yOf: (midi: Midi) => number,
): N | null {
  let nearest: N | null = null;
  let nearestPx = REACH_PX;
  for (const note of notes) {
    const alongPx = Math.max(note.startSec - at.timeSec, at.timeSec - note.endSec, 0) * pxPerSec;
    if (alongPx >= nearestPx) continue;
    const awayPx = Math.hypot(alongPx, yOf(traceMidiAt(noteTrace(note), at.timeSec)) - at.y);
    if (awayPx < nearestPx) {
      nearest = note;
      nearestPx = awayPx;
    }
  }
  return nearest;
}

/** A number needs this much room to either side, and this much above. */
const NUMBER_WIDTH_PX = 14;
const NUMBER_HEIGHT_PX = 13;

/** Which notes have room for their number, each before those that come after it. */
export function numbered<N extends TracedNote>(
  notes: readonly N[],
  toPx: (timeSec: Seconds) => number,
  yOf: (midi: Midi) => number,
): N[] {
  const placed: { x: number; y: number }[] = [];
  return notes.filter((note) => {
    const at = { x: toPx(note.startSec), y: yOf(note.midi) };
    const isFree = placed
      .slice(-12)
      .every(
        ({ x, y }) =>
          at.x - x >= NUMBER_WIDTH_PX * textScale() || Math.abs(at.y - y) >= NUMBER_HEIGHT_PX * textScale(),
      );
    if (isFree) placed.push(at);
    return isFree;
  });
}
