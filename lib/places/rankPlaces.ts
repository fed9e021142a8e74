import type { Copedent } from "@/lib/instrument/Copedent";
import { allStages } from "@/lib/instrument/stages";
import type { Midi } from "@/lib/units/quantities";
import { placeOf } from "./candidates";
import { chordInForce, chordWords, sumByName } from "./explainCandidate";
import { rankFingers, whyNoFingers } from "./fingers/rankFingers";
import { lockedCandidates, whyNone } from "./lockedCandidates";
import { locksOf } from "./locks";
import { moveTerms } from "./moveCost";
import type { NoPlace } from "./NoPlace";
import { layOutNeck, type Neck } from "./neck";
import type { Placed } from "./Place";
import type { PlaceLocks } from "./PlaceLocks";
import { placeTerms } from "./placeCost";
import type { RankContext, RankedPlace } from "./RankedPlace";
import { reasonFor } from "./reason";
import { type Spot, spotOf } from "./Spot";
import { USUAL_WEIGHTS } from "./weights";

/** How many places stand out. */
const STANDING_OUT = 3;

/**
 * Every place for notes, cheapest first, between the places before and after. Of the
 * cheapest, up to three stand out that differ in kind: the bar elsewhere by more than a fret, or none of the
 * same strings.
 * @param notesMidi whole MIDI pitches
 * @returns empty where the notes cannot be played
 * @throws HarteError on a chord label that cannot be read
 * @throws UnknownChangeError on a lock with a change that the copedent lacks
 */
export function rankPlaces(
  copedent: Copedent,
  notesMidi: readonly Midi[],
  context: RankContext = {},
): RankedPlace[] {
  const ranked =
    copedent.stoppedBy === "fingers"
      ? rankFingers(copedent, notesMidi, context)
      : rankUnderBar(copedent, notesMidi, context);
  const standing: RankedPlace[] = [];
  for (const place of ranked) {
    place.standsOut =
      standing.length < STANDING_OUT && standing.every((other) => differsInKind(place, other));
    if (place.standsOut) standing.push(place);
  }
  return ranked;
}

/** Whether two places are more than variants of each other. */
export function differsInKind(one: Placed, other: Placed): boolean {
  const shared = one.strings.some((string) => other.strings.includes(string));
  return Math.abs(one.fret - other.fret) > 1 || !shared;
}

/** Why notes have no place: off the neck, or which locks leave none. Throws `UnknownChangeError`. */
export function whyNoPlaces(
  copedent: Copedent,
  notesMidi: readonly Midi[],
  locks: PlaceLocks,
  slants = false,
): NoPlace {
  if (copedent.stoppedBy === "fingers") return whyNoFingers(copedent, notesMidi, locks);
  const neck = layOutNeck(copedent);
  return whyNone(neck, notesMidi, locksOf(neck, {}, locks), { slants });
}

function rankUnderBar(copedent: Copedent, notesMidi: readonly Midi[], context: RankContext): RankedPlace[] {
  const neck = layOutNeck(copedent);
  const before = neighbour(neck, context.before);
  const after = neighbour(neck, context.after);
  const locks = locksOf(neck, {}, context.locks);
  return lockedCandidates(neck, notesMidi, locks, { slants: context.slants })
    .map((spot) => rankOne(neck, spot, notesMidi, before, after, context))
    .sort((a, b) => a.cost - b.cost);
}

function rankOne(
  neck: Neck,
  spot: Spot,
  notesMidi: readonly Midi[],
  before: Spot | null,
  after: Spot | null,
  context: RankContext,
): RankedPlace {
  const weights = context.weights ?? USUAL_WEIGHTS;
  const place = placeOf(spot, notesMidi);
  const chord = chordInForce(neck, spot, notesMidi, context.chordLabel);
  const moment = {
    key: context.key,
    lengthSec: context.lengthSec ?? null,
    agreement: chord?.agreement ?? null,
  };
  const arrival = { timeSec: context.secondsSinceBefore ?? null, glide: context.glide ?? null };
  const leaving = { timeSec: context.secondsUntilAfter ?? null, glide: null };
  const here = [
    ...placeTerms(spot, moment, weights),
    ...(before === null ? [] : moveTerms(before, spot, arrival, weights)),
  ];
  const terms = sumByName([
    ...here,
    ...(after === null ? [] : moveTerms(spot, after, leaving, weights)),
    ...(context.onward ? [{ name: "what follows" as const, cost: context.onward(place) }] : []),
  ]);
  const reason = reasonFor(spot, {
    before,
    isRinging: arrival.glide !== null,
    chord: chordWords(chord, context.chordLabel, context.key),
    terms: here,
  });
  const cost = terms.reduce((sum, term) => sum + term.cost, 0);
  return { ...place, cost, terms, reason, standsOut: false };
}

function neighbour(neck: Neck, placed: Placed | undefined): Spot | null {
  if (placed === undefined) return null;
  const known = allStages(neck.copedent).map((stage) => stage.id);
  return spotOf(neck, { ...placed, changes: placed.changes.filter((id) => known.includes(id)) });
}
