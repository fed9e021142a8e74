import { C_MAJOR, type Key } from "@/lib/theory/key";
import { chordToLetters } from "@/lib/theory/numberChart";
import { agreementWithChord, areChordTones, type ChordAgreement, chordMaskOf } from "./chordAgreement";
import { moveTerms } from "./moveCost";
import type { Neck } from "./neck";
import type { CostTerm } from "./Place";
import { type LayerInPart, linkOf } from "./partSteps";
import { placeTerms } from "./placeCost";
import { type ReasonContext, reasonFor } from "./reason";
import type { Spot } from "./Spot";
import type { Weights } from "./weights";

/** Why a candidate costs what it costs. */
export interface Explained {
  /**
   * Its cost in parts, each name once: of being there, of coming there and of going on, on the cheapest way to play the
   * part through it; and as `rest of the part` what that way costs elsewhere. They add up to the candidate's cost.
   */
  terms: CostTerm[];
  /** What to do and what speaks for or against it, in plain words. */
  reason: string;
}

/** The cheapest way through one state of a layer: the states next to it, -1 at the ends. */
export interface WayThrough {
  cost: number;
  before: number;
  state: number;
  after: number;
}

export function explainCandidate(
  neck: Neck,
  layers: readonly LayerInPart[],
  at: number,
  way: WayThrough,
  { weights, key }: { weights: Weights; key: Key | undefined },
): Explained {
  const now = layers[at]!;
  const { event } = now;
  const spot = now.spots[way.state]!;
  const notesMidi = now.sounding[way.state]!.map((note) => event.notesMidi[note]!);
  const chord = event.place ? null : chordInForce(neck, spot, notesMidi, event.chordLabel);
  const moment = { key, lengthSec: event.endSec - event.startSec, agreement: chord?.agreement ?? null };
  const own = event.place ? [] : placeTerms(spot, moment, weights);
  const stopped: CostTerm = { name: "notes stopped", cost: now.stopping[way.state]! };
  const arrival = stepTerms(layers, at, way.before, way.state, weights);
  const leaving = stepTerms(layers, at + 1, way.state, way.after, weights);
  const terms = sumByName([...own, stopped, ...arrival, ...leaving]);
  const here = terms.reduce((sum, { cost }) => sum + cost, 0);
  const before = at > 0 ? layers[at - 1]!.spots[way.before]! : null;
  return {
    terms: Number.isFinite(way.cost)
      ? sumByName([...terms, { name: "rest of the part", cost: way.cost - here }])
      : terms,
    reason: reasonFor(spot, {
      before,
      isRinging: before !== null && (event.glide != null || Boolean(event.soundsOn?.some((link) => link))),
      chord: chordWords(chord, event.chordLabel, key),
      terms: [...own, stopped, ...arrival],
    }),
  };
}

/** The terms of the step into layer `at`; none at the ends of the part. */
function stepTerms(
  layers: readonly LayerInPart[],
  at: number,
  from: number,
  to: number,
  weights: Weights,
): CostTerm[] {
  const before = layers[at - 1];
  const now = layers[at];
  if (before === undefined || now === undefined) return [];
  const { broken, moment } = linkOf(before, from, now, to);
  return [
    ...moveTerms(before.spots[from]!, now.spots[to]!, moment, weights),
    { name: "picked anew", cost: weights.brokenGlide * broken },
  ];
}

/** How a place lies for the chord in force; null where there is none, or the notes are not of it. */
export function chordInForce(
  neck: Neck,
  spot: Spot,
  notesMidi: readonly number[],
  label: string | undefined,
): ChordAgreement | null {
  const mask = label === undefined ? 0 : chordMaskOf(label);
  return areChordTones(mask, notesMidi) ? agreementWithChord(neck, spot, mask) : null;
}

/** What a reason says of the chord: where the position carries it, in letters, and under which changes. */
export function chordWords(
  chord: ChordAgreement | null,
  label: string | undefined,
  key: Key | undefined,
): ReasonContext["chord"] {
  if (chord?.agreement !== "matched") return null;
  const { held, isWhole } = chord;
  return { letters: chordToLetters(label ?? "N", key ?? C_MAJOR), changes: held.stages, isWhole };
}

/** Terms of one name put together; those of 0 left out. */
export function sumByName(terms: readonly CostTerm[]): CostTerm[] {
  const sums = new Map<CostTerm["name"], number>();
  for (const { name, cost } of terms) sums.set(name, (sums.get(name) ?? 0) + cost);
  return [...sums].map(([name, cost]) => ({ name, cost })).filter(({ cost }) => cost !== 0);
}
