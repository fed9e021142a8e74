import type { HeardStretch } from "@/lib/hearing/Hearing";
import { type PrecisionRecall, precisionRecall, share } from "./matching";
import { matchNotes, SLIDE_WINDOW_SEC, type TimedNote } from "./noteMatching";

export interface ReferenceNote extends TimedNote {
  /** A slide is the arrival of a bend or slide without a new pick: it may be given or not. */
  kind: "attack" | "slide";
  role: string;
}

/** How many notes of a passage are found; counts of several passages add up. */
export interface NoteCounts {
  found: number;
  /** Picks that are asked for. */
  attacks: number;
  /** What was given, less the arrivals of slides. */
  given: number;
  slidesFound: number;
  slides: number;
  /** Of the steel, melody and voice. */
  leadFound: number;
  lead: number;
  /** Of the steel's pairs those of which both notes are found. */
  pairsFound: number;
  pairs: number;
}

export interface NoteScore extends PrecisionRecall {
  /** Null where the passage has no slides. */
  slideRecall: number | null;
  /** Recall of the steel, melody and voice; null where there are none. */
  leadRecall: number | null;
  /** Share of the steel's pairs of which both notes are found; null where there are none. */
  dyadRate: number | null;
}

const LEAD_ROLES = ["steel", "melody", "voice"];
/** Notes of a pair begin together within this. */
const PAIR_WINDOW_SEC = 0.03;
/** Estimates that begin a little outside of the passage may match notes at its edge. */
const EDGE_SEC = 0.05;

/** Notes of a passage: onset within 50 ms and pitch within 50 cents, one to one. */
export function countNotes(
  reference: readonly ReferenceNote[],
  estimate: readonly TimedNote[],
  { startSec, endSec }: HeardStretch,
): NoteCounts {
  const inside = ({ startSec: at }: TimedNote) => startSec <= at && at < endSec;
  const attacks = reference.filter((note) => note.kind === "attack" && inside(note));
  const slides = reference.filter((note) => note.kind === "slide" && inside(note));
  const given = estimate.filter(
    (note) => startSec - EDGE_SEC <= note.startSec && note.startSec < endSec + EDGE_SEC,
  );
  const matches = matchNotes(attacks, given);
  const found = new Set(matches.filter((match) => match >= 0));
  const left = given.filter((note, j) => matches[j]! < 0 && inside(note));
  const slidesFound = matchNotes(slides, left, SLIDE_WINDOW_SEC).filter((match) => match >= 0).length;
  const lead = attacks.flatMap((note, i) => (LEAD_ROLES.includes(note.role) ? [i] : []));
  const steel = attacks.flatMap((note, i) => (note.role === "steel" ? [i] : []));
  const pairs = steel.flatMap((i, at) =>
    steel
      .slice(at + 1)
      .filter((j) => Math.abs(attacks[i]!.startSec - attacks[j]!.startSec) < PAIR_WINDOW_SEC)
      .map((j) => [i, j] as const),
  );
  return {
    found: found.size,
    attacks: attacks.length,
    given: found.size + left.length - slidesFound,
    slidesFound,
    slides: slides.length,
    leadFound: lead.filter((i) => found.has(i)).length,
    lead: lead.length,
    pairsFound: pairs.filter(([i, j]) => found.has(i) && found.has(j)).length,
    pairs: pairs.length,
  };
}

export function noteScoreOf(counts: NoteCounts): NoteScore {
  return {
    ...precisionRecall(counts.found, counts.attacks, counts.given),
    slideRecall: share(counts.slidesFound, counts.slides),
    leadRecall: share(counts.leadFound, counts.lead),
    dyadRate: share(counts.pairsFound, counts.pairs),
  };
}

/** The score of one passage. */
export function noteScore(
  reference: readonly ReferenceNote[],
  estimate: readonly TimedNote[],
  passage: HeardStretch,
): NoteScore {
  return noteScoreOf(countNotes(reference, estimate, passage));
}
