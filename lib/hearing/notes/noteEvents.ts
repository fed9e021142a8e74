import type { Certainty } from "../Hearing";
import type { ArrivalEvidence } from "./arrivalEvidence";
import type { Candidate } from "./candidates";
import { certainty } from "./LogisticModel";
import type { NoteOdds } from "./noteOdds";
import { ACCEPT, TRACE } from "./parameters";
import type { PickEvidence } from "./pickEvidence";

/** A note that begins: how likely it does, and how likely it is the steel's if so. */
export interface PickEvent extends Candidate<PickEvidence> {
  kind: "pick";
  confidence: Certainty;
  steel: Certainty;
}

/** A note that gets to another pitch without a pick. */
export interface ArrivalEvent extends Candidate<ArrivalEvidence> {
  kind: "arrival";
  confidence: Certainty;
}

export type NoteEvent = PickEvent | ArrivalEvent;

/** @param presence how likely a steel plays in the stretch at all */
export function weighPicks(
  candidates: readonly Candidate<PickEvidence>[],
  odds: NoteOdds,
  presence: Certainty,
): PickEvent[] {
  return candidates.map((candidate) => {
    const bySteel = presence * certainty(odds.steelPick, candidate.evidence);
    const confidence = Math.max(certainty(odds.pick, candidate.evidence), bySteel);
    return { ...candidate, kind: "pick", confidence, steel: bySteel / confidence };
  });
}

export function weighArrivals(
  candidates: readonly Candidate<ArrivalEvidence>[],
  odds: NoteOdds,
): ArrivalEvent[] {
  return candidates.map((candidate) => ({
    ...candidate,
    kind: "arrival",
    confidence: certainty(odds.arrival, candidate.evidence),
  }));
}

/**
 * Those that count, in order of time. Where a pick and an arrival lie together on one semitone, the steel did one of
 * the two, the likelier; if it glided, the pick can still be the band's.
 */
export function acceptedEvents(picks: readonly PickEvent[], arrivals: readonly ArrivalEvent[]): NoteEvent[] {
  const glides = likeliest(arrivals, ACCEPT.glide).filter((arrival) => {
    const rival = picks.find((pick) => together(pick, arrival));
    return !rival || rival.confidence * rival.steel <= arrival.confidence;
  });
  const struck = picks.map((pick) => {
    const rival = glides.find((arrival) => together(pick, arrival));
    return rival ? { ...pick, steel: pick.steel * (1 - rival.confidence) } : pick;
  });
  return [...glides, ...likeliest(struck, ACCEPT.pick)].sort((a, b) => a.timeSec - b.timeSec);
}

function together(a: NoteEvent, b: NoteEvent): boolean {
  return a.semitone === b.semitone && Math.abs(a.frame - b.frame) < TRACE.sameEventFrames;
}

/** Those that are likely enough; of two together the likelier. */
function likeliest<E extends NoteEvent>(events: readonly E[], from: Certainty): E[] {
  const kept: E[] = [];
  for (const event of [...events].sort((a, b) => b.confidence - a.confidence)) {
    if (event.confidence >= from && !kept.some((other) => together(other, event))) kept.push(event);
  }
  return kept;
}
