import type { ShownChange, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { Place } from "@/lib/places/Place";
import type { PlaceLocks } from "@/lib/places/PlaceLocks";
import type { RankedPlace } from "@/lib/places/RankedPlace";
import { rankPlaces } from "@/lib/places/rankPlaces";
import type { Key } from "@/lib/theory/key";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { SAME_MOMENT_SEC } from "./sameMoment";

/** Events further apart than this do not bind each other: the hand is free between them. */
const FREE_AFTER_SEC = 8;

/** Where notes lie, between the events before and after that time, under the chord in force. */
export function rankAround(
  copedent: Copedent,
  notesMidi: readonly Midi[],
  at: {
    timeSec: Seconds;
    /** Home; undefined where it is not seen: then no position is told as one of it. */
    key: Key | undefined;
    part: readonly ShownPart[];
    changes: readonly ShownChange[];
    /** The event that is being placed, if it is written already. */
    event: ShownPart | null;
    /** What it costs to go on from a place; nothing where it is left out. */
    onward?: ((place: Place) => number) | undefined;
    /** What a person holds to. */
    locks?: PlaceLocks;
    /** Whether the bar may be slanted; not, where it is left out. */
    slants?: boolean;
  },
): RankedPlace[] {
  const { timeSec, part, changes, event } = at;
  const others = part.filter((each) => each.id !== event?.id);
  const before = others.findLast(
    (each) => each.startSec < timeSec - SAME_MOMENT_SEC && timeSec - each.startSec < FREE_AFTER_SEC,
  );
  const after = others.find(
    (each) => each.startSec > timeSec + SAME_MOMENT_SEC && each.startSec - timeSec < FREE_AFTER_SEC,
  );
  const chord = changes.find(
    (each) => each.startSec <= timeSec + SAME_MOMENT_SEC && each.endSec > timeSec + SAME_MOMENT_SEC,
  );
  return rankPlaces(copedent, notesMidi, {
    before,
    after,
    secondsSinceBefore: before && timeSec - before.startSec,
    secondsUntilAfter: after && after.startSec - timeSec,
    lengthSec: event ? event.endSec - event.startSec : undefined,
    chordLabel: chord?.label,
    key: at.key,
    onward: at.onward,
    locks: at.locks,
    slants: at.slants,
  });
}

/** The few places worth showing, easiest first: those that stand out, and the next cheapest to fill up. */
export function placesToShow(ranked: readonly RankedPlace[], count: number): RankedPlace[] {
  const standing = ranked.filter((place) => place.standsOut);
  const rest = ranked.filter((place) => !place.standsOut);
  return [...standing, ...rest].slice(0, count).sort((a, b) => a.cost - b.cost);
}
