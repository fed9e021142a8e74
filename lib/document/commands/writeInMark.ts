import { equalityDeep } from "lib0/function";
import type { Settled } from "../read/settle";
import type { Registers } from "../records/registers";
import { addEvent } from "./addEvent";
import type { Pen } from "./Pen";

/**
 * Writes an event of a part anew in the mark that it has (rule D39). Ink is edited. Pencil is written by its maker alone:
 * it goes, and stands anew in the pencil of whoever writes.
 * @returns ids of what was touched, of pencil the one that went and the new one; nothing where all was as wished already
 */
export function writeInMark(pen: Pen<"part">, event: Settled<"part">, values: Registers["part"]): string[] {
  if (event.isInk) return pen.ink(event, values);
  if (equalityDeep(values, event.values)) return [];
  const goneId = pen.takeBack(event) ? event.id : pen.rubOut(event);
  return [goneId, addEvent(pen, values, "pencil")];
}
