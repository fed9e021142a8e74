import { equalityDeep } from "lib0/function";
import type { Certainty, HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import { isCertainty, SHORTEST_SEC } from "../records/guards";
import { heardId } from "../records/heardId";
import { readAside, readValues } from "../records/readRegisters";
import type { RecordKind } from "../records/records";
import type { Asides, Pencil, Registers } from "../records/registers";
import { isRecordId } from "../records/storage";
import { Refused } from "./refusals";

/** What the machine proposes of one kind, by id. */
export type Proposals<K extends RecordKind> = Map<string, Proposal<K>>;

export interface Proposal<K extends RecordKind> {
  values: Registers[K];
  confidence: Certainty;
  aside: Asides[K] | null;
}

/** Whether the machine's pencil says just this, whichever ear was the first to (rule D34). */
export function saysJust<K extends RecordKind>(
  pencil: Pencil<K>,
  { values, confidence, aside }: Proposal<K>,
): boolean {
  return (
    pencil.confidence === confidence &&
    equalityDeep(pencil.values, values) &&
    equalityDeep(pencil.aside ?? null, aside)
  );
}

/** Adds a proposal; a finding that stands twice counts once. Refuses values that readers could not read. */
export function propose<K extends RecordKind>(
  proposals: Proposals<K>,
  kind: K,
  id: string,
  values: Registers[K],
  confidence: Certainty,
  said?: Asides[K],
): void {
  const read = readValues(kind, values);
  const aside = readAside(kind, said);
  if (read === null || !isRecordId(id) || !isCertainty(confidence)) throw new Refused("badHearing");
  if (said !== undefined && !equalityDeep(aside, said)) throw new Refused("badHearing");
  if (!proposals.has(id)) proposals.set(id, { values: read, confidence, aside });
}

/** The steel's notes of those that were heard; the band's, which are many, stay outside the shared song (rule D28). */
export function proposeNotes(proposals: Proposals<"note">, notes: readonly HeardNote[]): void {
  for (const { startSec, endSec, midi, glides, confidence, steel } of longEnough(notes.filter(isSteel))) {
    const id = heardId("note", startSec, `${Math.round(midi)}`);
    propose(proposals, "note", id, { startSec, endSec, midi, glides }, confidence, { steel });
  }
}

/** Those that can be shown; refuses the hearing where one ends before it starts. */
export function longEnough<S extends HeardStretch>(stretches: readonly S[]): S[] {
  if (stretches.some(({ startSec, endSec }) => endSec < startSec)) throw new Refused("badHearing");
  return stretches.filter(({ startSec, endSec }) => !(endSec - startSec < SHORTEST_SEC));
}
