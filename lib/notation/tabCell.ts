import type { Copedent } from "@/lib/instrument/Copedent";
import { fretOn } from "@/lib/instrument/frets";
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

/**
 * Where an event is held, as it is written on one of its strings: a fret; `[5,4]` under a slanted bar, the fret of each
 * string, the furthest first; under fingers the fret of that string.
 */
export function writeHeld(event: PartEvent, string: number, copedent: Copedent): string {
  if (!event.frets) return writeFret(event.fret);
  if (copedent.stoppedBy === "fingers") return writeFret(fretOn(event, string));
  const fromTop = [...event.strings].sort((a, b) => a - b);
  return `[${fromTop.map((each) => writeFret(fretOn(event, each))).join(",")}]`;
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
 * @param string the one of its strings that the cell stands on
 * @param before the event before it on the same string, null at the beginning
 */
export function writeCell(
  event: PartEvent,
  string: number,
  before: PartEvent | null,
  copedent: Copedent,
): CellText {
  const place = writeHeld(event, string, copedent) + writeChanges(event.changes, copedent);
  switch (event.articulation) {
    case "pick":
      return { text: place, joins: false };
    case "press":
    case "release":
      return { text: `>${place}`, joins: true };
    case "slide":
    case "slidePress":
      return { text: (goesDown(event, string, before) ? "\\" : "/") + place, joins: true };
  }
}

/** Whether it comes down on the string; where it stays on that one, whether it does so on the others. */
function goesDown(event: PartEvent, string: number, before: PartEvent | null): boolean {
  if (before === null) return false;
  const way = fretOn(event, string) - fretOn(before, string);
  return way < 0 || (way === 0 && event.fret < before.fret);
}
