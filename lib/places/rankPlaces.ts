import type { Copedent } from "@/lib/instrument/Copedent";
import { allStages } from "@/lib/instrument/stages";
import type { Key } from "@/lib/theory/key";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { placeOf } from "./candidates";
import { chordInForce, chordWords, sumByName } from "./explainCandidate";
import type { Glide } from "./glideActs";
import { lockedCandidates, whyNone } from "./lockedCandidates";
import { locksOf } from "./locks";
import { moveTerms } from "./moveCost";
import { layOutNeck, type Neck } from "./neck";
import type { CostTerm, Place, Placed } from "./Place";
import type { PlaceLocks } from "./PlaceLocks";
import { placeTerms } from "./placeCost";
import { reasonFor } from "./reason";
import { type Spot, spotOf } from "./Spot";
import { USUAL_WEIGHTS, type Weights } from "./weights";

/** What is known around the notes to be placed; everything may be left out. */
export interface RankContext {
  /**
   * Where the player is just before, and goes just after. Changes of theirs that the copedent lacks (written
   * for another guitar) are passed over.
   */
  before?: Placed;
  after?: Placed;
  /** From the start of the notes before to these; and from these to the ones after. */
  secondsSinceBefore?: Seconds;
  secondsUntilAfter?: Seconds;
  /** How long the notes last. */
  lengthSec?: Seconds;
  /** Chord in force, Harte syntax. */
  chordLabel?: string;
  key?: Key;
  /** How the notes were heard to come out of those before. */
  glide?: Glide;
  /** What it costs to go on from a place, as with the glides that follow. */
  onward?: (place: Place) => number;
  /** What a person holds to. */
  locks?: PlaceLocks;
  weights?: Weights;
}

export interface RankedPlace extends Place {
  /** Sum of `terms`. */
  cost: number;
  terms: CostTerm[];
  /** What to do and what speaks for or against it, in plain words. */
  reason: string;
  /** Whether this place is one of the few worth showing first: each differs in kind from those above it. */
  standsOut: boolean;
}

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
  const neck = layOutNeck(copedent);
  const before = neighbour(neck, context.before);
  const after = neighbour(neck, context.after);
  const locks = locksOf(neck, {}, context.locks);
  const ranked = lockedCandidates(neck, notesMidi, locks)
    .map((spot) => rankOne(neck, spot, notesMidi, before, after, context))
    .sort((a, b) => a.cost - b.cost);
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

/** Why notes have no place, in words: off the neck, or which locks leave none. Throws `UnknownChangeError`. */
export function whyNoPlaces(copedent: Copedent, notesMidi: readonly Midi[], locks: PlaceLocks): string {
  const neck = layOutNeck(copedent);
  return whyNone(neck, notesMidi, locksOf(neck, {}, locks));
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
