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

/** Those that count, in order of time; of two that lie together on one semitone the likelier. */
export function acceptedEvents(events: readonly NoteEvent[]): NoteEvent[] {
  const kept: NoteEvent[] = [];
  const likeliest = events
    .filter((event) => event.confidence >= (event.kind === "pick" ? ACCEPT.pick : ACCEPT.glide))
    .sort((a, b) => b.confidence - a.confidence);
  for (const event of likeliest) {
    const taken = kept.some(
      (other) =>
        other.semitone === event.semitone && Math.abs(other.frame - event.frame) < TRACE.sameEventFrames,
    );
    if (!taken) kept.push(event);
  }
  return kept.sort((a, b) => a.timeSec - b.timeSec);
}
