import type { PartEventFields } from "@/lib/document/commands/part";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { fretsOf } from "@/lib/instrument/frets";
import type { Semitones } from "@/lib/units/quantities";

/** What moving the bar or the fingers along comes to. */
export interface ShiftedFrets {
  /** New frets by id. */
  edits: Map<string, Pick<PartEventFields, "fret"> | Pick<PartEventFields, "frets">>;
  /** Events that would leave the neck, or of which a short string would not reach. */
  offNeck: ShownPart[];
}

/** Transposes events as a player does: the same strings and pedals, the bar so many frets on. */
export function shiftedFrets(
  events: readonly ShownPart[],
  semitones: Semitones,
  { fretCount, strings }: Copedent,
): ShiftedFrets {
  const edits: ShiftedFrets["edits"] = new Map();
  const offNeck: ShownPart[] = [];
  for (const event of events) {
    const frets = fretsOf(event).map((fret) => fret + semitones);
    const isOnNeck = event.strings.every((number, at) => {
      const beginsAtFret = strings.find((each) => each.number === number)?.beginsAtFret ?? 0;
      // A short string sounds open at fret 0, and at no fret before its own: it takes no part in moves across that.
      if (beginsAtFret > 0 && Math.min(frets[at]!, frets[at]! - semitones) < beginsAtFret) return false;
      return frets[at]! >= 0 && frets[at]! <= fretCount;
    });
    if (!isOnNeck) offNeck.push(event);
    else edits.set(event.id, event.frets ? { frets } : { fret: event.fret + semitones });
  }
  return { edits, offNeck };
}
