import type { CommandResult } from "@/lib/document/commands/act";
import { readSong } from "@/lib/document/read/readSong";
import type { Dice } from "./dice";
import type { Replica } from "./replicas";

export const LABELS = ["G:maj", "C:maj", "D:7", "A:min/b3", "E:min7", "N"];
/** Does something as a person; null where there was nothing to do it with. */
export type Act = (on: Replica, dice: Dice) => CommandResult | null;

/** The id of something that is shown, now and then of something that is not there. */
export function someId(list: readonly { id: string }[], dice: Dice): string {
  return list.length === 0 || dice.next() < 0.05 ? "nobody" : dice.of(list).id;
}
/** The events of all parts that are shown. */
export const allEvents = (on: Replica) => readSong(on.doc).parts.flatMap(({ events }) => events);
export const eventId = (on: Replica, dice: Dice) => someId(allEvents(on), dice);
export const partId = (on: Replica, dice: Dice) => someId(readSong(on.doc).parts, dice);
