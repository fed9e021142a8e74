import type { Copedent } from "@/lib/instrument/Copedent";
import { fretOn } from "@/lib/instrument/frets";
import { allStages } from "@/lib/instrument/stages";
import type { PartEvent } from "./PartEvent";
import { TECHNIQUES, type Technique } from "./Technique";

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

/** As they stand behind a place; the tab's legend says so in words. */
export const TECHNIQUE_SIGNS: Readonly<Record<Technique, string>> = {
  harmonic: "*",
  vibrato: "~",
  block: "'",
};

/** The signs of an event's techniques, in their one order; empty where it has none. */
export function writeTechniques(techniques: readonly Technique[] = []): string {
  return TECHNIQUES.filter((each) => techniques.includes(each))
    .map((each) => TECHNIQUE_SIGNS[each])
    .join("");
}

/** What an event shows on one of its strings. */
export interface CellText {
  text: string;
  /** Where it is held, without what is done to it. */
  held: string;
  /** Whether it goes on sounding the note before it (`>`, `/`, `\` or `(` stands first), so that it may touch it. */
  joins: boolean;
}

/**
 * The cell of an event: `3AB` for a pick, `/5A` and `\3` where the bar moves up or down while the string rings,
 * `>3A` and `>3` where only pedals or levers move, `(3A)` for a tie; behind the place the signs of techniques, as in `3A~`.
 * @param string the one of its strings that the cell stands on
 * @param before the event before it on the same string, null at the beginning
 */
export function writeCell(
  event: PartEvent,
  string: number,
  before: PartEvent | null,
  copedent: Copedent,
): CellText {
  const held = writeHeld(event, string, copedent) + writeChanges(event.changes, copedent);
  const place = held + writeTechniques(event.techniques);
  switch (event.articulation) {
    case "pick":
      return { text: place, held, joins: false };
    case "press":
    case "release":
      return { text: `>${place}`, held, joins: true };
    case "slide":
    case "slidePress":
      return { text: (goesDown(event, string, before) ? "\\" : "/") + place, held, joins: true };
    case "tie":
      return { text: `(${place})`, held, joins: true };
  }
}

/** Whether it comes down on the string; where it stays on that one, whether it does so on the others. */
function goesDown(event: PartEvent, string: number, before: PartEvent | null): boolean {
  if (before === null) return false;
  const way = fretOn(event, string) - fretOn(before, string);
  return way < 0 || (way === 0 && event.fret < before.fret);
}
