import type { Copedent } from "@/lib/instrument/Copedent";
import { NO_CHORD } from "@/lib/theory/harte";
import { C_MAJOR } from "@/lib/theory/key";
import { chordToLetters } from "@/lib/theory/numberChart";
import type { Midi } from "@/lib/units/quantities";
import { areChordTones, chordMaskOf } from "../chordAgreement";
import { sumByName } from "../explainCandidate";
import type { NoPlace } from "../NoPlace";
import type { Placed } from "../Place";
import type { RankContext, RankedPlace } from "../RankedPlace";
import { chordUnderHand } from "./chordUnderHand";
import { type Fingering, fingeringOf } from "./Fingering";
import { findFingerings } from "./fingerCandidates";
import { type HandMoment, type HandState, handMoveTerms, handTerms } from "./fingerCost";
import { fingerLocksOf, whyNoFingering } from "./fingerLocks";
import { fingerReason } from "./fingerReason";
import { USUAL_FINGER_WEIGHTS } from "./fingerWeights";
import { scaleMm } from "./fretGeometry";

/**
 * Every way to stop notes, cheapest first, between the places before and after, as `rankPlaces` says, which calls this.
 * Each with the hand in its cheapest position, here as well as before and after. `standsOut` is left to the caller.
 */
export function rankFingers(
  copedent: Copedent,
  notesMidi: readonly Midi[],
  context: RankContext,
): RankedPlace[] {
  const weights = USUAL_FINGER_WEIGHTS;
  const locks = fingerLocksOf(copedent, {}, context.locks);
  const scale = scaleMm(copedent);
  const before = handStates(neighbour(copedent, context.before));
  const after = handStates(neighbour(copedent, context.after));
  const arrival: HandMoment = {
    timeSec: context.secondsSinceBefore ?? null,
    isGlide: context.glide !== undefined,
  };
  const leaving: HandMoment = { timeSec: context.secondsUntilAfter ?? null, isGlide: false };
  const costOf = (state: HandState) => total(handTerms(state, scale, weights));
  const { chordLabel } = context;
  const chordMask = chordLabel === undefined ? 0 : chordMaskOf(chordLabel);
  const agreementOf = (state: HandState) =>
    areChordTones(chordMask, notesMidi) ? chordUnderHand(copedent, state, chordMask, weights) : null;
  return findFingerings(copedent, notesMidi, weights)
    .filter(({ place }) => locks.every((lock) => lock.keeps(place)))
    .map((fingering) => {
      const ways = handStates(fingering).map((state) => {
        const own = handTerms(state, scale, weights, agreementOf(state));
        const from = cheapest(before, (other) => ({
          terms: handMoveTerms(other, state, arrival, weights),
          beside: costOf(other),
        }));
        const to = cheapest(after, (other) => ({
          terms: handMoveTerms(state, other, leaving, weights),
          beside: costOf(other),
        }));
        return { state, from, own, to, score: total(own) + from.score + to.score };
      });
      const { state, from, own, to } = ways.reduce((best, way) => (way.score < best.score ? way : best));
      const here = [...own, ...from.terms];
      const onward = context.onward
        ? [{ name: "what follows" as const, cost: context.onward(fingering.place) }]
        : [];
      const terms = sumByName([...here, ...to.terms, ...onward]);
      return {
        ...fingering.place,
        cost: total(terms),
        terms,
        reason: fingerReason(
          state,
          from.state,
          here,
          agreementOf(state) === "matched"
            ? chordToLetters(chordLabel ?? NO_CHORD, context.key ?? C_MAJOR)
            : null,
        ),
        standsOut: false,
      };
    })
    .sort((a, b) => a.cost - b.cost);
}

/** Why notes have no place: off the neck, or which locks leave none. */
export function whyNoFingers(
  copedent: Copedent,
  notesMidi: readonly Midi[],
  locks: RankContext["locks"],
): NoPlace {
  const places = findFingerings(copedent, notesMidi, USUAL_FINGER_WEIGHTS).map(({ place }) => place);
  return whyNoFingering(places, notesMidi.length, fingerLocksOf(copedent, {}, locks));
}

type Terms = ReturnType<typeof handTerms>;

/** The neighbouring state to which the way is cheapest, what holding that one costs counted in. */
function cheapest(
  states: readonly HandState[],
  wayTo: (state: HandState) => { terms: Terms; beside: number },
) {
  let best: { state: HandState | null; terms: Terms; score: number } | null = null;
  for (const state of states) {
    const { terms, beside } = wayTo(state);
    const score = total(terms) + beside;
    if (best === null || score < best.score) best = { state, terms, score };
  }
  return best ?? { state: null, terms: [], score: 0 };
}

function handStates(fingering: Fingering | null): HandState[] {
  return (fingering?.positions ?? []).map((position) => ({ fingering: fingering!, position }));
}

/** A written place as the hand holds it, however far it reaches; null where it takes more fingers than there are. */
function neighbour(copedent: Copedent, placed: Placed | undefined): Fingering | null {
  if (placed === undefined || placed.strings.length === 0) return null;
  const place = { ...placed, notesMidi: placed.strings.map(() => 0) };
  return fingeringOf(copedent, place, place.strings.length, { reachMm: Number.POSITIVE_INFINITY });
}

function total(terms: Terms): number {
  return terms.reduce((sum, { cost }) => sum + cost, 0);
}
