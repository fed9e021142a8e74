import type { SongPart, SongSnapshot } from "@/lib/document/read/SongSnapshot";
import { shortName } from "../copedents/copedentWords";

/** The part of that id; the first where there is none of it, or none is named. */
export function partOf(parts: readonly SongPart[], id: string | null): SongPart {
  const [first] = parts;
  if (!first) throw new Error("Every song has its first part (rule D52).");
  return parts.find((part) => part.id === id) ?? first;
}

/** The song with that part in hand: `head` and `part` are its own, and whatever reads them is about it. */
export function withPartAtHand(song: SongSnapshot, id: string | null): SongSnapshot {
  const { head, events } = partOf(song.parts, id);
  return head === song.head && events === song.part ? song : { ...song, head, part: events };
}

/** How a part is called: by its name, else by its place in the order, the first simply "Part". */
export function partName(parts: readonly Pick<SongPart, "id" | "name">[], id: string): string {
  const at = parts.findIndex((part) => part.id === id);
  return parts[at]?.name || (at > 0 ? `Part ${at + 1}` : "Part");
}

/**
 * What a part is heard as: its name, else its instrument, any steel simply "steel"; where another part would be called so too,
 * its place in the order.
 */
export function soundName(parts: readonly CalledPart[], id: string): string {
  const called = ({ name, head: { copedent } }: CalledPart) =>
    name || (copedent.stoppedBy === "bar" ? STEEL : shortName(copedent));
  const part = parts.find((each) => each.id === id);
  if (!part) return STEEL;
  const own = called(part);
  return parts.some((each) => each.id !== id && called(each) === own) ? partName(parts, id) : own;
}

type CalledPart = Pick<SongPart, "id" | "name"> & { head: Pick<SongPart["head"], "copedent"> };

const STEEL = "steel";

/** The same within a sentence. */
export function soundWords(name: string): string {
  return name === STEEL ? "the steel" : name;
}

/** What a part holds, in words: `12 events, 3 in pencil`. */
export function heldWords({ events }: Pick<SongPart, "events">): string {
  const pencilled = events.filter(({ mark }) => mark === "pencil").length;
  const count = events.length === 1 ? "1 event" : `${events.length} events`;
  if (events.length === 0) return "nothing written yet";
  return pencilled === 0
    ? count
    : pencilled === events.length
      ? `${count} in pencil`
      : `${count}, ${pencilled} in pencil`;
}
