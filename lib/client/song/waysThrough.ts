import type { Placed } from "@/lib/places/Place";
import type { CostedPlace, PlacedSequence } from "@/lib/places/PlacedSequence";
import { differsInKind } from "@/lib/places/rankPlaces";

/** As many ways are worth walking through. */
const MOST_WAYS = 5;
/** Ways differ where so many of their places do. */
const DIFFERENT_SHARE = 0.34;
/** As many places are gone through in search of other ways. */
const MOST_TRIES = 400;

/** What is chosen for each event, null where it cannot be played, and what it costs. */
export interface FoundWay {
  places: (CostedPlace | null)[];
  cost: number;
}

/** The cheapest way, then each the cheapest through a place that none before it comes near, so long as it differs as a whole. */
export function waysThrough(placed: PlacedSequence): FoundWay[] {
  const ways: FoundWay[] = [];
  const tries = placed.events
    .flatMap(({ candidates }, event) => candidates.map(({ cost }, candidate) => ({ event, candidate, cost })))
    .filter(({ cost }) => Number.isFinite(cost))
    .sort((a, b) => a.cost - b.cost);
  let tried = 0;
  for (const { event, candidate, cost } of tries) {
    if (ways.length === MOST_WAYS || tried === MOST_TRIES) break;
    const here = placed.events[event]!.candidates[candidate]!;
    if (ways.some(({ places }) => places[event] && !differsInKind(places[event], here))) continue;
    tried += 1;
    const places = chosenPlaces(placed, placed.chosenThrough(event, candidate));
    if (ways.every((way) => areDifferent(way.places, places))) ways.push({ places, cost });
  }
  return ways;
}

/** The places of a way; of the cheapest where nothing else is said. */
export function chosenPlaces(
  { events }: PlacedSequence,
  chosen: readonly (number | null)[] = events.map(({ chosenIndex }) => chosenIndex),
): (CostedPlace | null)[] {
  return events.map(({ candidates }, at) => candidates[chosen[at] ?? -1] ?? null);
}

/** Whether a listener or a hand would tell two ways apart: enough of their places differ in kind. */
export function areDifferent(one: readonly (Placed | null)[], other: readonly (Placed | null)[]): boolean {
  let both = 0;
  let differing = 0;
  for (const [at, place] of one.entries()) {
    const there = other[at];
    if (!place || !there) continue;
    both += 1;
    if (differsInKind(place, there)) differing += 1;
  }
  return both > 0 && differing >= Math.max(1, both * DIFFERENT_SHARE);
}
