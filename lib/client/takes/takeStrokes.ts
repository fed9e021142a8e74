import type { TakeGlide, TakeNote, TakeStroke } from "@/lib/fit/takes/TakeStroke";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { PartEvent } from "@/lib/notation/PartEvent";
import { playPart } from "@/lib/synth/playPart";
import type { SteelNote } from "@/lib/synth/steelPluck";
import type { Seconds } from "@/lib/units/quantities";
import { SAME_MOMENT_SEC } from "../song/sameMoment";

/**
 * The strokes of a part as a take is held against them: what is picked together, by the same reading as the steel plays it
 * (`synth/playPart.ts`), so that ties and what rings on are none, and slides, presses and releases are glides of the stroke
 * that still rings.
 * @param part all events, so that what rings into a stretch is known
 * @returns in order of time
 * @throws UnknownChangeError on a pedal or lever that the copedent lacks
 */
export function takeStrokes(part: readonly PartEvent[], copedent: Copedent): TakeStroke[] {
  const events = [...part].sort((a, b) => a.startSec - b.startSec);
  const strokes: { eventId: string; startSec: Seconds; notes: TakeNote[] }[] = [];
  for (const note of playPart(events, copedent)) {
    const last = strokes.at(-1);
    if (last && note.startSec - last.startSec < SAME_MOMENT_SEC) last.notes.push(takeNote(note, events));
    else
      strokes.push({
        eventId: eventAt(events, note.startSec),
        startSec: note.startSec,
        notes: [takeNote(note, events)],
      });
  }
  return strokes;
}

function takeNote({ pitch, endSec }: SteelNote, events: readonly PartEvent[]): TakeNote {
  const glides: TakeGlide[] = [];
  for (const [at, point] of pitch.entries()) {
    const before = pitch[at - 1];
    if (!before || Math.round(point.midi) === Math.round(before.midi)) continue;
    glides.push({
      eventId: eventAt(events, before.timeSec),
      toMidi: Math.round(point.midi),
      startSec: before.timeSec,
      endSec: point.timeSec,
    });
  }
  return { midi: Math.round(pitch[0]!.midi), endSec, glides };
}

/** The event that begins at a time, the first where several do. */
function eventAt(events: readonly PartEvent[], timeSec: Seconds): string {
  const near = events.filter(({ startSec }) => Math.abs(startSec - timeSec) < SAME_MOMENT_SEC);
  return (near.find(({ startSec }) => startSec === timeSec) ?? near[0])?.id ?? "";
}
