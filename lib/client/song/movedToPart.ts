import type { PartEventFields } from "@/lib/document/commands/part";
import type { CopiedEvent } from "@/lib/document/commands/partMany";
import type { ShownChange, ShownPart, SongPart } from "@/lib/document/read/SongSnapshot";
import { SHORTEST_SEC } from "@/lib/document/records/guards";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { Key } from "@/lib/theory/key";
import { copiesOnGuitar } from "./copiesOnGuitar";

/** Events as another part would play them. */
export interface MovedToPart {
  /** By id of the event that goes. */
  laid: ReadonlyMap<string, PartEventFields>;
  /** Ids of those that lie nowhere on its instrument, and stay. */
  unplayableIds: readonly string[];
  /** Ids of those for which no string is free there, as others sound on it or go to it at the same moment, and stay. */
  crowdedIds: readonly string[];
}

/**
 * Lays events of one part on the instrument of another, sounding as they did (rule D66). One sounds on a string at a time
 * (rule D14): what would end something there, or be hidden by it, stays. Of those that go, one that is picked on a string on which
 * another of them rings ends that; where only one of two would be seen, the other stays.
 * @param events in order of time
 */
export function movedToPart(
  events: readonly ShownPart[],
  from: Copedent,
  to: Pick<SongPart, "events" | "head">,
  around: { key: Key | undefined; changes: readonly ShownChange[] },
): MovedToPart {
  const copies = events.map(({ mark, ...event }) => ({ mark, event: fieldsOf(event) }));
  const { copies: played, leftOut } = copiesOnGuitar(copies, from, to.head.copedent, around);
  const [unplayable, playable] = [true, false].map((isLeftOut) =>
    events.filter((_, at) => leftOut.includes(at) === isLeftOut),
  ) as [ShownPart[], ShownPart[]];
  const laid = new Map<string, PartEventFields>();
  const goes: CopiedEvent[] = [];
  const crowdedIds: string[] = [];
  playable.forEach(({ id }, at) => {
    const copy = played[at]!;
    if (to.events.some((other) => isInTheWay(other, copy.event)) || goes.some((other) => hides(other, copy)))
      crowdedIds.push(id);
    else {
      goes.push(copy);
      laid.set(id, copy.event);
    }
  });
  return { laid, unplayableIds: unplayable.map(({ id }) => id), crowdedIds };
}

function fieldsOf(event: Omit<ShownPart, "mark">): PartEventFields {
  const { startSec, endSec, strings, fret, frets = null, changes, articulation, techniques = [] } = event;
  return { startSec, endSec, strings, fret, frets, changes, articulation, techniques };
}

/** Whether of two only one would be seen: both begin together on a string, or the later in pencil while ink sounds on it. */
function hides(one: CopiedEvent, later: CopiedEvent): boolean {
  const apartSec = later.event.startSec - one.event.startSec;
  const isUnderInk = one.mark === "ink" && later.mark === "pencil";
  return isInTheWay(one.event, later.event) && (apartSec < SHORTEST_SEC || isUnderInk);
}

function isInTheWay(one: PartEventFields, other: PartEventFields): boolean {
  const together = Math.min(one.endSec, other.endSec) - Math.max(one.startSec, other.startSec);
  return together >= SHORTEST_SEC && one.strings.some((string) => other.strings.includes(string));
}
