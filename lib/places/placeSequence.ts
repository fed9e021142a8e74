import type { Copedent } from "@/lib/instrument/Copedent";
import type { Key } from "@/lib/theory/key";
import type { Seconds } from "@/lib/units/quantities";
import { cheapestPath } from "./cheapestPath";
import { type EventState, EventStates } from "./eventStates";
import type { HeardEvent } from "./HeardEvent";
import { moveCost } from "./moveCost";
import type { Place } from "./Place";
import { USUAL_WEIGHTS, type Weights } from "./weights";

export interface PlaceSequenceOptions {
  key?: Key | undefined;
  weights?: Weights;
  maxFret?: number;
  /** 3 by default, 4 with the ring finger. */
  maxStrings?: number;
}

/** A place with what it costs the part. */
export interface CostedPlace extends Place {
  /** Cost of the cheapest way to play the whole part that uses this place for this event. */
  cost: number;
  /** Which notes of the event sound here, as indices into its `notesMidi`, one for each string; the rest is stopped. */
  sounding: readonly number[];
}

export interface PlacedEvent {
  startSec: Seconds;
  /** Index into `candidates`; null where the notes cannot be played. */
  chosenIndex: number | null;
  /** Every candidate, by what is stopped, then fret, then fewest changes. */
  candidates: CostedPlace[];
}

export interface PlacedSequence {
  /** One for each event given, in the order given. */
  events: PlacedEvent[];
  /** Cost of the chosen path: of every chosen place and of every move between neighbours. */
  totalCost: number;
  /** For each event what is chosen on the cheapest way through one candidate of one event, as `chosenIndex`. */
  chosenThrough(event: number, candidate: number): (number | null)[];
}

/**
 * Places a whole part: of all ways to play it the cheapest, exact. Costs are the sums of `placeCost` and
 * `moveCost`, of what must be stopped and of what must be picked anew; a string that sounds on keeps its note. An
 * event that cannot be played is passed over, and the move goes from the event before it to the one after. Events
 * may come in any order; they are reckoned by start.
 * @throws HarteError on a chord label that cannot be read
 */
export function placeSequence(
  copedent: Copedent,
  events: readonly HeardEvent[],
  options: PlaceSequenceOptions = {},
): PlacedSequence {
  const weights = options.weights ?? USUAL_WEIGHTS;
  const states = new EventStates(copedent, weights, options);
  const inTime = events
    .map((event, index) => ({ event, index, states: states.of(event) }))
    .sort((a, b) => a.event.startSec - b.event.startSec)
    .map((layer, order) => ({ ...layer, order }));
  const playable = inTime.filter((layer) => layer.states.length > 0);
  const path = cheapestPath({
    states: playable.map((layer) => layer.states.map(({ cost }) => cost)),
    step: (at, from, to) => {
      const [before, now] = [playable[at - 1]!, playable[at]!];
      const isNext = before.order + 1 === now.order;
      const timeSec = now.event.startSec - before.event.startSec;
      return stepCost(before.states[from]!, now.states[to]!, { event: now.event, isNext, timeSec }, weights);
    },
  });
  const placed: PlacedEvent[] = events.map(({ startSec }) => ({
    startSec,
    chosenIndex: null,
    candidates: [],
  }));
  playable.forEach(({ event, index, states: those }, at) => {
    placed[index] = {
      startSec: event.startSec,
      chosenIndex: path.chosen[at] ?? null,
      candidates: those.map(({ facts: { place }, sounding }, state) => ({
        ...place,
        cost: path.through[at]![state]!,
        sounding,
      })),
    };
  });
  return {
    events: placed,
    totalCost: path.total,
    chosenThrough(event, candidate) {
      const chosen: (number | null)[] = events.map(() => null);
      const layer = playable.findIndex(({ index }) => index === event);
      const through = layer < 0 ? path.chosen : path.chosenThrough(layer, candidate);
      playable.forEach(({ index }, at) => {
        chosen[index] = through[at] ?? null;
      });
      return chosen;
    },
  };
}

/** Cost of going from one state to another. A note that rings on does so on its string, else it is stopped there. */
function stepCost(
  from: EventState,
  to: EventState,
  { event, isNext, timeSec }: { event: HeardEvent; isNext: boolean; timeSec: Seconds },
  weights: Weights,
): number {
  let broken = 0;
  for (let at = 0; at < to.sounding.length; at += 1) {
    const link = event.soundsOn?.[to.sounding[at]!];
    if (!link) continue;
    const before = isNext ? from.sounding.indexOf(link.from) : -1;
    if (before >= 0 && from.facts.place.strings[before] === to.facts.place.strings[at]) continue;
    if (!link.glides) return Number.POSITIVE_INFINITY;
    broken += 1;
  }
  const glide = broken === 0 ? (event.glide ?? null) : null;
  return weights.brokenGlide * broken + moveCost(from.facts, to.facts, { timeSec, glide }, weights);
}
