import type { EventPlace } from "@/lib/document/commands/head";
import type { ShownChange, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { Key } from "@/lib/theory/key";
import { partOnGuitar } from "./partOnGuitar";
import { placeAnew } from "./placeAnew";

/** A part, and the guitars it goes from and to. */
export interface PartToMove {
  part: readonly ShownPart[];
  /** What it is written for. */
  from: Copedent;
  to: Copedent;
  /** Home; not given where it is not known, or kept from who looks. */
  key: Key | undefined;
  changes: readonly ShownChange[];
}

/** What becomes of a part when it is carried over to another guitar. */
export interface CarriedOver {
  /** Of the events that lie elsewhere there, or under other letters. */
  places: ReadonlyMap<string, EventPlace>;
  /** How many sound as before by what pedals and levers do. */
  byEffectCount: number;
  /** How many were found another place. */
  placedAnewCount: number;
  /** How many stay as they are written, since they lie nowhere on it. */
  leftCount: number;
}

/**
 * Carries a part over to another guitar, so that it sounds as before wherever that can play it.
 * @param onProgress told how far it is, 0 to 1
 */
export function carryOver(
  { part, from, to, key, changes }: PartToMove,
  onProgress?: (fraction: number) => void,
): CarriedOver {
  const read = partOnGuitar(part, from, to);
  const instead = placeAnew(read, from, to, { key, changes, onProgress });
  const carried = partOnGuitar(part, from, to, instead);
  const places = new Map<string, EventPlace>();
  carried.part.forEach((event, at) => {
    const before = part[at]!;
    if (carried.flags.has(event.id) || isSamePlace(before, event)) return;
    const { strings, fret, frets, changes, articulation } = event;
    places.set(event.id, { strings, fret, frets, changes, articulation });
  });
  return {
    places,
    byEffectCount: part.length - read.flags.size,
    placedAnewCount: instead.size,
    leftCount: carried.flags.size,
  };
}

function isSamePlace(one: EventPlace, other: EventPlace): boolean {
  const textOf = ({ strings, fret, frets = null, changes, articulation }: EventPlace) =>
    JSON.stringify([strings, fret, frets, changes, articulation]);
  return textOf(one) === textOf(other);
}
