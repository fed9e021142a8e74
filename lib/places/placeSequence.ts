import type { Copedent } from "@/lib/instrument/Copedent";
import type { Key } from "@/lib/theory/key";
import type { Seconds } from "@/lib/units/quantities";
import { placeOf } from "./candidates";
import { cheapestPath } from "./cheapestPath";
import { EventLayers } from "./eventLayer";
import { type Explained, explainCandidate } from "./explainCandidate";
import type { HeardEvent } from "./HeardEvent";
import { MoveTables } from "./moveTables";
import { layOutNeck } from "./neck";
import { NoteSets } from "./noteSets";
import type { Place } from "./Place";
import type { PartLocks } from "./PlaceLocks";
import { type LayerInPart, stepFiller } from "./partSteps";
import { USUAL_WEIGHTS, type Weights } from "./weights";

export interface PlaceSequenceOptions {
  key?: Key | undefined;
  weights?: Weights;
  maxFret?: number;
  /** What a person holds to in the whole part; beside the locks of single events. */
  locks?: PartLocks | undefined;
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
  /** Why there are no candidates, in words: off the neck, or which locks leave none; null where there are some. */
  whyNone: string | null;
}

export interface PlacedSequence {
  /** One for each event given, in the order given. */
  events: PlacedEvent[];
  /** Cost of the chosen path: of every chosen place and of every move between neighbours. */
  totalCost: number;
  /** For each event what is chosen on the cheapest way through one candidate of one event, as `chosenIndex`. */
  chosenThrough(event: number, candidate: number): (number | null)[];
  /** What makes up a candidate's cost, and what to do for it, in words. */
  explain(event: number, candidate: number): Explained;
}

/**
 * Places a whole part: of all ways to play it the cheapest, exact. Costs are the sums of `placeCost` and
 * `moveCost`, of what must be stopped and of what must be picked anew; a string that sounds on keeps its note. An
 * event that cannot be played, or to which locks leave no place, is passed over, and the move goes from the event before
 * it to the one after. Events may come in any order; they are reckoned by start.
 * @throws HarteError on a chord label that cannot be read
 * @throws UnknownChangeError on a lock or place with a change that the copedent lacks
 */
export function placeSequence(
  copedent: Copedent,
  events: readonly HeardEvent[],
  options: PlaceSequenceOptions = {},
): PlacedSequence {
  const weights = options.weights ?? USUAL_WEIGHTS;
  const neck = layOutNeck(copedent);
  const tables = new MoveTables(weights);
  const layersOf = new EventLayers(
    neck,
    new NoteSets(neck, weights, tables, options),
    weights,
    options.locks ?? {},
  );
  const inTime = events
    .map((event, index) => ({ index, layer: layersOf.of(event) }))
    .sort((a, b) => a.layer.event.startSec - b.layer.event.startSec)
    .map((each, order) => ({ ...each, order }));
  const playable = inTime.filter(({ layer }) => layer.spots.length > 0);
  const layers = playable.map(({ layer, order }, at): LayerInPart => {
    const before = playable[at - 1];
    const timeSec = before ? layer.event.startSec - before.layer.event.startSec : null;
    return { ...layer, timeSec, isNext: before !== undefined && before.order + 1 === order };
  });
  const path = cheapestPath({
    states: layers.map(({ own }) => own),
    fillSteps: stepFiller(layers, tables, weights),
  });
  const layerOfEvent = new Map(playable.map(({ index }, at) => [index, at]));
  const placed = events.map((event, index): PlacedEvent => {
    const { startSec } = event;
    const at = layerOfEvent.get(index);
    if (at === undefined)
      return { startSec, chosenIndex: null, candidates: [], whyNone: layersOf.whyNone(event) };
    const { spots, sounding } = layers[at]!;
    const costs = path.through[at]!;
    const candidates = spots.map((spot, state): CostedPlace => {
      const notesMidi = sounding[state]!.map((note) => event.notesMidi[note]!);
      return { ...placeOf(spot, notesMidi), cost: costs[state]!, sounding: sounding[state]! };
    });
    return { startSec, chosenIndex: path.chosen[at]!, candidates, whyNone: null };
  });
  return {
    events: placed,
    totalCost: path.total,
    chosenThrough(event, candidate) {
      const chosen: (number | null)[] = events.map(() => null);
      const layer = layerOfEvent.get(event);
      const through = layer === undefined ? path.chosen : path.chosenThrough(layer, candidate);
      playable.forEach(({ index }, at) => {
        chosen[index] = through[at]!;
      });
      return chosen;
    },
    explain(event, candidate) {
      const at = layerOfEvent.get(event);
      if (at === undefined) throw new RangeError(`Event ${event} has no candidates.`);
      const { before, after } = path.neighboursThrough(at, candidate);
      const cost = path.through[at]![candidate]!;
      const way = { cost, before, state: candidate, after };
      return explainCandidate(neck, layers, at, way, { weights, key: options.key });
    },
  };
}
