import type { Registers } from "../records/registers";
import type { Mark } from "../records/Stamp";
import { FIRST_PART, OTHER_EVENTS } from "../records/storage";
import type { Pen } from "./Pen";

/** Makes a new event, in the map of its part (rule D52), and gives its id. */
export function addEvent(pen: Pen<"part">, values: Registers["part"], mark: Mark): string {
  return pen.add(values, mark, values.part === FIRST_PART ? "part" : OTHER_EVENTS);
}
