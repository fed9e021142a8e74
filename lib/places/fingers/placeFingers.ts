import type { Copedent } from "@/lib/instrument/Copedent";
import { NO_CHORD } from "@/lib/theory/harte";
import { C_MAJOR } from "@/lib/theory/key";
import { chordToLetters } from "@/lib/theory/numberChart";
import { cheapestPath } from "../cheapestPath";
import { sumByName } from "../explainCandidate";
import { followSearch } from "../followSearch";
import type { HeardEvent } from "../HeardEvent";
import { layersInTime } from "../layersInTime";
import type { CostedPlace, PlacedEvent, PlacedSequence, PlaceSequenceOptions } from "../PlacedSequence";
import { USUAL_WEIGHTS } from "../weights";
import { fingerReason } from "./fingerReason";
import { USUAL_FINGER_WEIGHTS } from "./fingerWeights";
import { HandLayers } from "./handLayer";
import { HandSteps } from "./handSteps";

/**
 * Places a whole part on an instrument that is stopped by fingers, as `placeSequence` says, which calls this: of all ways
 * to play it the cheapest, exact, over what is stopped where and the position of the hand (dynamic programming over
 * fingerings as in S. I. Sayegh, Fingering for String Instruments with the Optimum Path Paradigm, Computer Music
 * Journal 13 (1989)). A candidate's cost is that of the cheapest way with the hand in any position.
 */
export function placeFingers(
  copedent: Copedent,
  events: readonly HeardEvent[],
  options: PlaceSequenceOptions = {},
): PlacedSequence {
  const weights = USUAL_FINGER_WEIGHTS;
  const general = options.weights ?? USUAL_WEIGHTS;
  const layersOf = new HandLayers(copedent, weights, general, options);
  const searching = followSearch(events.length, options.onProgress);
  const playable = layersInTime(
    events,
    searching.layingOut((event) => layersOf.of(event)),
    ({ states }) => states.length > 0,
  );
  const layers = playable.map(({ layer }) => layer);
  const steps = new HandSteps(layers, weights, general);
  const path = cheapestPath({
    states: layers.map(({ own }) => own),
    fillSteps: searching.stepping(steps.fill),
  });
  const layerOfEvent = new Map(playable.map(({ index }, at) => [index, at]));
  /** For each candidate of each layer the state in which it is cheapest. */
  const bestStates = layers.map(({ states, candidates }, at) => {
    const best = new Array<number>(candidates.length).fill(-1);
    const through = path.through[at]!;
    states.forEach(({ candidate }, state) => {
      if (best[candidate]! < 0 || through[state]! < through[best[candidate]!]!) best[candidate] = state;
    });
    return best;
  });
  const candidateOf = (at: number, state: number) => layers[at]!.states[state]!.candidate;
  const placed = events.map((event, index): PlacedEvent => {
    const { startSec } = event;
    const at = layerOfEvent.get(index);
    if (at === undefined)
      return { startSec, chosenIndex: null, candidates: [], whyNone: layersOf.whyNone(event) };
    const through = path.through[at]!;
    const candidates = layers[at]!.candidates.map(
      ({ fingering, sounding }, candidate): CostedPlace => ({
        ...fingering.place,
        cost: through[bestStates[at]![candidate]!]!,
        sounding,
      }),
    );
    return { startSec, chosenIndex: candidateOf(at, path.chosen[at]!), candidates, whyNone: null };
  });
  return {
    events: placed,
    totalCost: path.total,
    chosenThrough(event, candidate) {
      const chosen: (number | null)[] = events.map(() => null);
      const at = layerOfEvent.get(event);
      const through = at === undefined ? path.chosen : path.chosenThrough(at, bestStates[at]![candidate]!);
      playable.forEach(({ index }, layer) => {
        chosen[index] = candidateOf(layer, through[layer]!);
      });
      return chosen;
    },
    explain(event, candidate) {
      const at = layerOfEvent.get(event);
      if (at === undefined) throw new RangeError(`Event ${event} has no candidates.`);
      const state = bestStates[at]![candidate]!;
      const { before, after } = path.neighboursThrough(at, state);
      const hand = layers[at]!.states[state]!;
      const { stopping } = layers[at]!.candidates[candidate]!;
      const { chordLabel } = layers[at]!.event;
      const isWhole = layersOf.agreement(hand, chordLabel) === "matched";
      const coming = [
        ...layersOf.terms(hand, chordLabel),
        { name: "notes stopped" as const, cost: stopping },
        ...steps.terms(at, before, state),
      ];
      const terms = sumByName([...coming, ...steps.terms(at + 1, state, after)]);
      const here = terms.reduce((sum, { cost }) => sum + cost, 0);
      const cost = path.through[at]![state]!;
      const rest = { name: "rest of the part" as const, cost: cost - here };
      return {
        terms: Number.isFinite(cost) ? sumByName([...terms, rest]) : terms,
        reason: fingerReason(
          hand,
          layers[at - 1]?.states[before] ?? null,
          coming,
          isWhole ? chordToLetters(chordLabel ?? NO_CHORD, options.key ?? C_MAJOR) : null,
        ),
      };
    },
  };
}
