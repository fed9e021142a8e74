import type { Copedent } from "@/lib/instrument/Copedent";
import { allStages } from "@/lib/instrument/stages";
import { C_MAJOR, type Key } from "@/lib/theory/key";
import { chordToLetters } from "@/lib/theory/numberChart";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { candidatePlaces } from "./candidates";
import { agreementWithChord, areChordTones, type ChordAgreement, chordMaskOf } from "./chordAgreement";
import { factsOf, type PlaceFacts } from "./facts";
import { type Glide, moveTerms } from "./moveCost";
import { layOutNeck, type Neck } from "./neck";
import type { CostTerm, Place, Placed } from "./Place";
import { placeTerms } from "./placeCost";
import { reasonFor } from "./reason";
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
  weights?: Weights;
  /** 3 by default, 4 with the ring finger. */
  maxStrings?: number;
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
 * Every place for one note, a pair or three, cheapest first, between the places before and after. Of the
 * cheapest, up to three stand out that differ in kind: the bar elsewhere by more than a fret, or none of the
 * same strings.
 * @param notesMidi whole MIDI pitches
 * @returns empty where the notes cannot be played
 * @throws HarteError on a chord label that cannot be read
 */
export function rankPlaces(
  copedent: Copedent,
  notesMidi: readonly Midi[],
  context: RankContext = {},
): RankedPlace[] {
  const neck = layOutNeck(copedent);
  const before = neighbour(neck, context.before);
  const after = neighbour(neck, context.after);
  const ranked = candidatePlaces(neck, notesMidi, { maxStrings: context.maxStrings })
    .map((place) => rankOne(neck, factsOf(neck, place), before, after, context))
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

function rankOne(
  neck: Neck,
  facts: PlaceFacts<Place>,
  before: PlaceFacts | null,
  after: PlaceFacts | null,
  context: RankContext,
): RankedPlace {
  const weights = context.weights ?? USUAL_WEIGHTS;
  const chord = chordInForce(neck, facts, context.chordLabel);
  const moment = {
    key: context.key,
    lengthSec: context.lengthSec ?? null,
    agreement: chord?.agreement ?? null,
  };
  const arrival = { timeSec: context.secondsSinceBefore ?? null, glide: context.glide ?? null };
  const leaving = { timeSec: context.secondsUntilAfter ?? null, glide: null };
  const here = [
    ...placeTerms(facts, moment, weights),
    ...(before === null ? [] : moveTerms(before, facts, arrival, weights)),
  ];
  const terms = sumByName([
    ...here,
    ...(after === null ? [] : moveTerms(facts, after, leaving, weights)),
    ...(context.onward ? [{ name: "what follows" as const, cost: context.onward(facts.place) }] : []),
  ]);
  const letters = chordToLetters(context.chordLabel ?? "N", context.key ?? C_MAJOR);
  const matched = chord?.agreement === "matched" ? { letters, changes: chord.held.stages } : null;
  return {
    ...facts.place,
    cost: terms.reduce((sum, term) => sum + term.cost, 0),
    terms,
    reason: reasonFor(facts, { before, chord: matched, terms: here }),
    standsOut: false,
  };
}

function neighbour(neck: Neck, placed: Placed | undefined): PlaceFacts | null {
  if (placed === undefined) return null;
  const known = allStages(neck.copedent).map((stage) => stage.id);
  return factsOf(neck, { ...placed, changes: placed.changes.filter((id) => known.includes(id)) });
}

function chordInForce(
  neck: Neck,
  facts: PlaceFacts<Place>,
  label: string | undefined,
): ChordAgreement | null {
  const mask = label === undefined ? 0 : chordMaskOf(label);
  return areChordTones(mask, facts.place.notesMidi) ? agreementWithChord(neck, facts, mask) : null;
}

function sumByName(terms: readonly CostTerm[]): CostTerm[] {
  const sums = new Map<CostTerm["name"], number>();
  for (const { name, cost } of terms) sums.set(name, (sums.get(name) ?? 0) + cost);
  return [...sums].map(([name, cost]) => ({ name, cost }));
}
