import type { Copedent } from "@/lib/instrument/Copedent";
import type { PlayedEvent } from "@/lib/synth/playPart";
import type { Cents } from "@/lib/units/quantities";
import { partNotes } from "./partNotes";
import type { SoundingPart } from "./SteelPlayer";

/** A part that is to be played. */
export interface PlayedPart<E extends PlayedEvent = PlayedEvent> {
  id: string;
  events: readonly E[];
  copedent: Copedent;
  /** 0 to 1. */
  level: number;
}

/** Parts as the player takes them: one that says what it said before has the very same notes, which are not told anew. */
export class PartScores {
  private known = new Map<string, { part: PlayedPart; tuningCents: Cents; notes: SoundingPart["notes"] }>();

  /** @param tuningCents how far the record, as it is heard, stands from A4 = 440 Hz */
  of(parts: readonly PlayedPart[], tuningCents: Cents): readonly SoundingPart[] {
    const before = this.known;
    this.known = new Map();
    return parts.map((part) => {
      const { id, level, events, copedent } = part;
      const was = before.get(id);
      const isSame =
        was?.part.events === events && was.part.copedent === copedent && was.tuningCents === tuningCents;
      const notes = isSame ? was.notes : () => partNotes(events, copedent, tuningCents);
      this.known.set(id, { part, tuningCents, notes });
      return { id, level, notes };
    });
  }
}
