import type { CopiedEvent } from "@/lib/document/commands/partMany";
import type { ShownChange, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { allStages } from "@/lib/instrument/stages";
import type { Key } from "@/lib/theory/key";
import { partOnGuitar } from "./partOnGuitar";
import { placeAnew } from "./placeAnew";

/** Copies as they are to be written on a guitar that may not be the one they come from. */
export interface CopiesOnGuitar {
  copies: CopiedEvent[];
  /** Which of those that were given lie nowhere on it, and are left out. */
  leftOut: readonly number[];
}

/** Copied events on the guitar of the part that they go into, sounding as they did: by effect where it can, else placed anew. */
export function copiesOnGuitar(
  copies: readonly CopiedEvent[],
  from: Copedent,
  to: Copedent,
  around: { key: Key | undefined; changes: readonly ShownChange[] },
): CopiesOnGuitar {
  if (isSameNeck(from, to)) return { copies: [...copies], leftOut: [] };
  const part = copies.map(({ event, mark }, at): ShownPart => {
    const strings = [...event.strings];
    const stamp = { part: "", madeBy: "", madeAtMs: 0, editedBy: "", editedAtMs: 0, confidence: null };
    return {
      ...stamp,
      ...event,
      ...{ id: String(at), mark, strings, writtenEndSec: event.endSec, writtenStrings: strings },
    };
  });
  const instead = placeAnew(partOnGuitar(part, from, to), from, to, around);
  const read = partOnGuitar(part, from, to, instead);
  const laid = read.part.flatMap((event, at): CopiedEvent[] => {
    if (read.flags.has(event.id)) return [];
    const { strings, fret, frets = null, changes, articulation } = event;
    const { event: copied, mark } = copies[at]!;
    return [{ mark, event: { ...copied, strings, fret, frets, changes, articulation } }];
  });
  const leftOut = read.part.flatMap(({ id }, at) => (read.flags.has(id) ? [at] : []));
  return { copies: laid, leftOut };
}

/** Whether strings, frets and letters mean the same on both. */
function isSameNeck(one: Copedent, other: Copedent): boolean {
  const meaning = (copedent: Copedent) => {
    const { strings, fretCount, stoppedBy, splits, combinations } = copedent;
    const stages = allStages(copedent).map(({ id, pulls }) => [id, pulls]);
    return JSON.stringify([strings, fretCount, stoppedBy, splits, combinations, stages]);
  };
  return meaning(one) === meaning(other);
}
