import type { HeardGrid, Hearing } from "@/lib/hearing/Hearing";
import { gather } from "../read/gather";
import { readPassages } from "../read/passages";
import { isFiniteNumber } from "../records/guards";
import { heardId } from "../records/heardId";
import { readPencil } from "../records/readRegisters";
import type { RecordKind } from "../records/records";
import type { HeardSheet, Pencil } from "../records/registers";
import { MACHINE } from "../records/Stamp";
import { isNewer, PENCIL_REGISTER, RECORD_KINDS, registerKey } from "../records/storage";
import { type CommandContext, type CommandResult, commit, type Write } from "./act";
import { longEnough, type Proposals, propose, proposeNotes, saysJust } from "./proposals";
import { Refused, refuse } from "./refusals";
import { takeAway } from "./takeAway";

type AllProposals = { [K in RecordKind]: Proposals<K> };

/**
 * Writes what the machine heard, as pencil (rules D7, D8). Findings it had before keep their ids; records that a
 * person inked or rubbed out are left untouched; its own pencil that this hearing does not find again is no longer
 * shown. Of the notes only the steel's are written. Chords, notes and sections shorter than 20 ms are left out. `ctx.by` and `ctx.newId` are not used: the machine writes under
 * its own name and under ids derived from the finding.
 * @param runId names this run; the same run written twice changes nothing
 * @returns ids of the proposals, or a refusal of the whole hearing
 */
export function writeHearing(
  ctx: Pick<CommandContext, "doc" | "nowMs" | "origin">,
  hearing: Hearing,
  runId: string,
): CommandResult {
  if (isNewer(ctx.doc)) return refuse("newerVersion");
  if (!isFiniteNumber(ctx.nowMs)) return refuse("badClock");
  if (typeof runId !== "string" || runId === "" || typeof hearing.version !== "string")
    return refuse("badHearing");
  let proposals: AllProposals;
  try {
    proposals = proposeAll(hearing);
  } catch (error) {
    if (error instanceof Refused) return refuse(error.reason);
    throw error;
  }
  const writes = RECORD_KINDS.flatMap((kind) => pencilWrites(ctx, kind, proposals[kind], hearing.version));
  // They were heard over an earlier hearing, which this one replaces (rule D29).
  writes.push(...takeAway(readPassages(ctx.doc).filter(({ overRunId }) => overRunId !== runId)));
  const ids = Object.fromEntries(RECORD_KINDS.map((kind) => [kind, [...proposals[kind].keys()]]));
  const heard = { runId, version: hearing.version, atMs: ctx.nowMs, ids: ids as HeardSheet["ids"] };
  commit(ctx, writes, heard);
  return { ok: true, ids: Object.values(heard.ids).flat() };
}

/** The pencil that is not there yet, or says something else, on records that no person touched. */
function pencilWrites<K extends RecordKind>(
  ctx: Pick<CommandContext, "doc" | "nowMs">,
  kind: K,
  proposals: Proposals<K>,
  ear: string,
): Write[] {
  const records = gather(ctx.doc, kind);
  return [...proposals].flatMap(([id, proposal]) => {
    const raw = records.get(id);
    if (raw !== undefined && raw.inks.size + raw.rubs.size + raw.roles.size + raw.fields.size > 0) return [];
    const before = readPencil(kind, raw?.pencil);
    if (before && saysJust(before, proposal)) return [];
    const { confidence, values, aside } = proposal;
    const atMs = before?.atMs ?? ctx.nowMs;
    const pencil: Pencil<K> = { by: MACHINE, atMs, confidence, values, ear, ...(aside && { aside }) };
    return [{ kind, key: registerKey(id, PENCIL_REGISTER), value: pencil }];
  });
}

function proposeAll(hearing: Hearing): AllProposals {
  const all: AllProposals = {
    tuning: new Map(),
    grid: new Map(),
    home: new Map(),
    change: new Map(),
    bass: new Map(),
    section: new Map(),
    note: new Map(),
    part: new Map(),
    study: new Map(),
  };
  const { tuningCents, tuningConfidence } = hearing;
  propose(
    all.tuning,
    "tuning",
    heardId("tuning", 0, tuningCents.toFixed(1)),
    { tuningCents },
    tuningConfidence,
  );
  if (hearing.grid.beats.length > 0) proposeGrid(all, hearing.grid);
  for (const { startSec, tonic, mode, confidence, nextBest } of hearing.homes) {
    const id = heardId("home", startSec, `${tonic}:${mode}`);
    propose(all.home, "home", id, { startSec, key: { tonic, mode } }, confidence, { nextBest });
  }
  for (const { startSec, endSec, label, confidence, nextBest } of longEnough(hearing.chords)) {
    const values = { startSec, endSec, label };
    propose(all.change, "change", heardId("change", startSec, label), values, confidence, { nextBest });
  }
  for (const { startSec, endSec, midi, confidence } of longEnough(hearing.bass)) {
    propose(all.bass, "bass", heardId("bass", startSec, `${midi}`), { startSec, endSec, midi }, confidence);
  }
  for (const { startSec, endSec, label, transposedSemitones, confidence } of longEnough(hearing.sections)) {
    const id = heardId("section", startSec, `${label}|${transposedSemitones}`);
    propose(all.section, "section", id, { startSec, endSec, label, transposedSemitones }, confidence);
  }
  proposeNotes(all.note, hearing.notes ?? []);
  return all;
}

function proposeGrid(all: AllProposals, grid: HeardGrid): void {
  const { beatsPerBar, division, beatsConfidence, barsConfidence } = grid;
  const beatsSec = grid.beats.map((beat) => beat.timeSec);
  const inBar = grid.beats.map((beat) => beat.inBar);
  const what = `${beatsPerBar}|${grid.beats.map((beat) => `${Math.round(beat.timeSec * 100)}.${beat.inBar}`)}`;
  const freeStretches = grid.freeStretches.map(({ startSec, endSec }) => ({ startSec, endSec }));
  const beats = { beatsSec, inBar, beatsPerBar, division, freeStretches };
  const id = heardId("grid", beatsSec[0]!, what);
  const aside = { beatsConfidence, barsConfidence };
  propose(all.grid, "grid", id, { beats }, beatsConfidence * barsConfidence, aside);
}
