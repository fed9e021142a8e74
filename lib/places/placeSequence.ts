import type { Copedent } from "@/lib/instrument/Copedent";
import { cheapestPath } from "./cheapestPath";
import { EventLayers } from "./eventLayer";
import { explainCandidate } from "./explainCandidate";
import { placeFingers } from "./fingers/placeFingers";
import { followSearch } from "./followSearch";
import type { HeardEvent } from "./HeardEvent";
import { layersInTime } from "./layersInTime";
import { MoveTables } from "./moveTables";
import { layOutNeck } from "./neck";
import { NoteSets } from "./noteSets";
import type { CostedPlace, PlacedEvent, PlacedSequence, PlaceSequenceOptions } from "./PlacedSequence";
import { stepFiller } from "./partSteps";
import { USUAL_WEIGHTS } from "./weights";

/**
 * Places a whole part: of all ways to play it the cheapest, exact. Costs are the sums of `placeCost` and
 * `moveCost`, of what must be stopped and of what must be picked anew; a string that sounds on keeps its note. An
 * event that cannot be played, or to which locks leave no place, is passed over, and the move goes from the event before
 * it to the one after. Events may come in any order; they are reckoned by start. Where fingers stop the strings,
 * `placeFingers` does the same for hands.
 * @throws HarteError on a chord label that cannot be read
 * @throws UnknownChangeError on a lock or place with a change that the copedent lacks
 */
export function placeSequence(
  copedent: Copedent,
  events: readonly HeardEvent[],
  options: PlaceSequenceOptions = {},
): PlacedSequence {
  if (copedent.stoppedBy === "fingers") return placeFingers(copedent, events, options);
  const weights = options.weights ?? USUAL_WEIGHTS;
  const neck = layOutNeck(copedent);
  const tables = new MoveTables(weights);
  const layersOf = new EventLayers(
    neck,
    new NoteSets(neck, weights, tables, options),
    weights,
    options.locks ?? {},
  );
  const searching = followSearch(events.length, options.onProgress);
  const playable = layersInTime(
    events,
    searching.layingOut((event) => layersOf.of(event)),
    ({ spots }) => spots.length > 0,
  );
  const layers = playable.map(({ layer }) => layer);
  const path = cheapestPath({
    states: layers.map(({ own }) => own),
    fillSteps: searching.stepping(stepFiller(layers, tables, weights)),
  });
  const layerOfEvent = new Map(playable.map(({ index }, at) => [index, at]));
  const placed = events.map((event, index): PlacedEvent => {
    const { startSec } = event;
    const at = layerOfEvent.get(index);
    if (at === undefined)
      return { startSec, chosenIndex: null, candidates: [], whyNone: layersOf.whyNone(event) };
    const { spots, sounding } = layers[at]!;
    const costs = path.through[at]!;
    let notesMidi: number[] = [];
    const candidates = spots.map(({ fret, frets, hold }, state): CostedPlace => {
      const notes = sounding[state]!;
      if (notes !== sounding[state - 1]) notesMidi = notes.map((note) => event.notesMidi[note]!);
      const { strings, set } = hold;
      const cost = costs[state]!;
      const place = { fret, changes: set.ids, strings, notesMidi, cost, sounding: notes };
      return frets ? { ...place, frets } : place;
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
