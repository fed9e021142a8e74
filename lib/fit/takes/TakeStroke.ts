import type { Midi, Seconds } from "@/lib/units/quantities";

/** A note's way to another pitch without a new pick, in seconds of the record. */
export interface TakeGlide {
  /** The event of the part that moves it. */
  eventId: string;
  toMidi: Midi;
  startSec: Seconds;
  endSec: Seconds;
}

/** A note of a stroke from its pick until it is stopped, in seconds of the record and semitones of its tuning. */
export interface TakeNote {
  midi: Midi;
  endSec: Seconds;
  /** In order of time. */
  glides: readonly TakeGlide[];
}

/** All that a part has picked at one moment. Ties and what rings on are no strokes of their own. */
export interface TakeStroke {
  /** Of the event; where several begin together, of the first. */
  eventId: string;
  startSec: Seconds;
  /** At least one. */
  notes: readonly TakeNote[];
}

/** What begins this little before a stretch lies in it still, and what begins so near to its end does not. */
export const EDGE_SEC: Seconds = 0.02;

/** Whether what begins at a time is asked of a stretch of the record. */
export function beginsWithin(
  sec: Seconds,
  { startSec, endSec }: { startSec: Seconds; endSec: Seconds },
): boolean {
  return sec >= startSec - EDGE_SEC && sec < endSec - EDGE_SEC;
}

/** Where a note stands at a time, once what moves it then has arrived. */
export function pitchFrom({ midi, glides }: TakeNote, atSec: Seconds): Midi {
  return glides.findLast(({ startSec }) => startSec <= atSec)?.toMidi ?? midi;
}
