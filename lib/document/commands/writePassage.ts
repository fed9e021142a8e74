import { equalityDeep } from "lib0/function";
import type { HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import type { EpochMs } from "@/lib/units/quantities";
import { beginsIn, readPassages } from "../read/passages";
import { readHeard, type Settled, settleKind } from "../read/settle";
import type { PassageSheet } from "../records/registers";
import { MACHINE } from "../records/Stamp";
import { beginTogether, isSamePitch } from "../records/sameNote";
import { isRecordId, PASSAGES, registerKey, SHEET_REGISTER } from "../records/storage";
import { act, type CommandContext, type CommandResult } from "./act";
import { type Proposal, type Proposals, proposeNotes, saysJust } from "./proposals";
import { Refused } from "./refusals";
import { checkStretch } from "./stretch";
import { takeAway } from "./takeAway";

/** What was heard of a passage alone. */
export interface HeardPassage extends HeardStretch {
  /** Name and number of the method. */
  version: string;
  /** The notes that begin in it, the band's among them. */
  notes: readonly HeardNote[];
}

type PassageNote = PassageSheet["notes"][number];

/**
 * Writes what a person had the machine hear of a passage, as the machine's pencil (rules D29, D30): it takes the place
 * of the pencil that the machine had there, and of nothing else. Of the notes only the steel's are written.
 * @returns ids of the notes that it proposes; none, and nothing is written, where just these stand there
 */
export function writePassage(ctx: CommandContext, heard: HeardPassage): CommandResult {
  return act(ctx, (writes) => {
    const stretch = checkStretch(heard);
    const { version } = heard;
    if (typeof version !== "string" || !heard.notes.every((note) => beginsIn(stretch, note.startSec)))
      throw new Refused("badHearing");
    const found: Proposals<"note"> = new Map();
    proposeNotes(found, heard.notes);

    const known = [...settleKind(ctx.doc, "note").values()].filter(isProposed);
    const notes = noteSheet(found, known, { ear: version, nowMs: ctx.nowMs });
    if (isTold(notes, known, stretch)) return [];
    const id = ctx.newId();
    if (!isRecordId(id)) throw new Refused("badId");
    const { by, nowMs: atMs } = ctx;
    const overRunId = readHeard(ctx.doc)?.runId ?? null;
    const sheet: PassageSheet = { by, atMs, version, overRunId, ...stretch, notes };
    writes.push({ kind: PASSAGES, key: registerKey(id, SHEET_REGISTER), value: structuredClone(sheet) });
    const beneath = readPassages(ctx.doc).filter(
      (other) => other.startSec >= stretch.startSec && other.endSec <= stretch.endSec,
    );
    writes.push(...takeAway(beneath));
    return notes.map((note) => note.id);
  });
}

/** A note that the machine proposed and still does, whatever people did with it. */
type Known = Settled<"note"> & { proposal: NonNullable<Settled<"note">["proposal"]> };

function isProposed(note: Settled<"note">): note is Known {
  return note.proposal !== null && note.standing !== "retired";
}

/** The findings under the ids they have, each left as it was where a person has touched it, or it says just this. */
function noteSheet(
  found: Proposals<"note">,
  known: readonly Known[],
  { ear, nowMs }: { ear: string; nowMs: EpochMs },
): PassageNote[] {
  const byId = new Map(known.map((note) => [note.id, note]));
  const free = new Map([...byId].filter(([id]) => !found.has(id)));
  return [...found].map(([derivedId, proposal]) => {
    const before = byId.get(derivedId) ?? takeNearest(free, proposal);
    const id = before?.id ?? derivedId;
    if (before && (isTouched(before) || saysJust(before.proposal, proposal)))
      return { id, ...before.proposal };
    const { values, confidence, aside } = proposal;
    const atMs = before?.proposal.atMs ?? nowMs;
    return { id, by: MACHINE, atMs, confidence, values, ear, ...(aside && { aside }) };
  });
}

function isTouched({ isInk, rubStamps, fieldNames }: Known): boolean {
  return isInk || rubStamps.length + fieldNames.length > 0;
}

/** The note nearest in time of those that say the same (rule D30), which no other finding can then take. */
function takeNearest(free: Map<string, Known>, { values }: Proposal<"note">): Known | null {
  let nearest: Known | null = null;
  let nearestSec = Number.POSITIVE_INFINITY;
  for (const note of free.values()) {
    const { startSec, midi } = note.proposal.values;
    if (!beginTogether(startSec, values.startSec) || !isSamePitch(midi, values.midi)) continue;
    const awaySec = Math.abs(startSec - values.startSec);
    if (awaySec >= nearestSec) continue;
    nearest = note;
    nearestSec = awaySec;
  }
  if (nearest) free.delete(nearest.id);
  return nearest;
}

/** Whether the machine proposes just these notes there already. */
function isTold(notes: readonly PassageNote[], known: readonly Known[], stretch: HeardStretch): boolean {
  const there = known.filter(({ proposal }) => beginsIn(stretch, proposal.values.startSec));
  const proposals = new Map(there.map(({ id, proposal }) => [id, proposal]));
  return (
    notes.length === there.length &&
    notes.every(({ id, ...pencil }) => proposals.has(id) && equalityDeep(proposals.get(id), pencil))
  );
}
