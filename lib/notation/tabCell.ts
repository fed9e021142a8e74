import type { Copedent } from "@/lib/instrument/Copedent";
import { allStages } from "@/lib/instrument/stages";
import type { PartEvent } from "./PartEvent";

/**
 * The changes of an event as they follow the fret: in the copedent's order, ids it does not know last. Ids of
 * one letter (a deeper stage doubles it: `DD`) stand side by side, longer ones are parted by `+`.
 */
export function writeChanges(changes: readonly string[], copedent: Copedent): string {
  const order = allStages(copedent).map((stage) => stage.id);
  const place = (id: string) => (order.includes(id) ? order.indexOf(id) : order.length);
  const ids = [...changes].sort((a, b) => place(a) - place(b) || (a < b ? -1 : 1));
  return ids.join(ids.every((id) => /^([A-Z])\1*$/.test(id)) ? "" : "+");
}

/** A fret, with up to two decimals where the bar lies between two frets. */
export function writeFret(fret: number): string {
  return String(Math.round(fret * 100) / 100);
}

/** What an event shows on one of its strings. */
export interface CellText {
  text: string;
  /** Whether it goes on sounding the note before it (`>`, `/` or `\` stands first), so that it may touch it. */
  joins: boolean;
}

/**
 * The cell of an event: `3AB` for a pick, `/5A` and `\3` where the bar moves up or down while the string rings,
 * `>3A` and `>3` where only pedals or levers move.
 * @param before the event before it on the same string, null at the beginning
 */
export function writeCell(event: PartEvent, before: PartEvent | null, copedent: Copedent): CellText {
  const place = writeFret(event.fret) + writeChanges(event.changes, copedent);
  switch (event.articulation) {
    case "pick":
      return { text: place, joins: false };
    case "press":
    case "release":
      return { text: `>${place}`, joins: true };
    case "slide":
    case "slidePress":
      return { text: (before !== null && event.fret < before.fret ? "\\" : "/") + place, joins: true };
  }
}
