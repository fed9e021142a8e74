import { equalityDeep } from "lib0/function";
import type { Certainty, Hearing } from "@/lib/hearing/Hearing";
import { gather } from "../read/gather";
import { isFiniteNumber, readPencil, readValues, SHORTEST_SEC } from "../records/guards";
import { heardId } from "../records/heardId";
import type { RecordKind } from "../records/records";
import type { HeardSheet, Pencil, Registers } from "../records/registers";
import { MACHINE } from "../records/Stamp";
import { isNewer, isRecordId, PENCIL_REGISTER, RECORD_KINDS, registerKey } from "../records/storage";
import { type CommandContext, type CommandResult, commit, type Write } from "./act";
import { Refused, refuse } from "./refusals";

/** What the machine proposes of one kind, by id. */
type Proposals<K extends RecordKind> = Map<string, { values: Registers[K]; confidence: Certainty }>;
type AllProposals = { [K in RecordKind]: Proposals<K> };

/**
 * Writes what the machine heard, as pencil (rules D7, D8). Findings it had before keep their ids; records that a
 * person inked or rubbed out are left untouched; its own pencil that this hearing does not find again is no longer
 * shown. Chords shorter than 20 ms are left out. `ctx.by` and `ctx.newId` are not used: the machine writes under
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
    proposals = propose(hearing);
  } catch (error) {
    if (error instanceof Refused) return refuse(error.reason);
    throw error;
  }
  const writes = RECORD_KINDS.flatMap((kind) => pencilWrites(ctx, kind, proposals[kind]));
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
): Write[] {
  const records = gather(ctx.doc, kind);
  return [...proposals].flatMap(([id, { values, confidence }]) => {
    const raw = records.get(id);
    if (raw !== undefined && raw.inks.size + raw.rubs.size + raw.fields.size > 0) return [];
    const before = readPencil(kind, raw?.pencil);
    if (before !== null && before.confidence === confidence && equalityDeep(before.values, values)) return [];
    const pencil: Pencil<K> = { by: MACHINE, atMs: before?.atMs ?? ctx.nowMs, confidence, values };
    return [{ kind, key: registerKey(id, PENCIL_REGISTER), value: pencil }];
  });
}

function propose(hearing: Hearing): AllProposals {
  const all: AllProposals = {
    tuning: new Map(),
    grid: new Map(),
    home: new Map(),
    change: new Map(),
    part: new Map(),
  };
  const { tuningCents, grid } = hearing;
  put(all, "tuning", heardId("tuning", 0, tuningCents.toFixed(1)), { tuningCents }, hearing.tuningConfidence);
  if (grid.beats.length > 0) {
    const beatsSec = grid.beats.map((beat) => beat.timeSec);
    const inBar = grid.beats.map((beat) => beat.inBar);
    const what = `${grid.beatsPerBar}|${grid.beats.map((beat) => `${Math.round(beat.timeSec * 100)}.${beat.inBar}`)}`;
    const beats = { beatsSec, inBar, beatsPerBar: grid.beatsPerBar };
    put(
      all,
      "grid",
      heardId("grid", beatsSec[0]!, what),
      { beats },
      grid.beatsConfidence * grid.barsConfidence,
    );
  }
  for (const { startSec, tonic, mode, confidence } of hearing.homes) {
    const id = heardId("home", startSec, `${tonic}:${mode}`);
    put(all, "home", id, { startSec, key: { tonic, mode } }, confidence);
  }
  for (const { startSec, endSec, label, confidence } of hearing.chords) {
    if (endSec < startSec) throw new Refused("badHearing");
    if (endSec - startSec < SHORTEST_SEC) continue;
    put(all, "change", heardId("change", startSec, label), { startSec, endSec, label }, confidence);
  }
  return all;
}

/** Adds a proposal; a finding that stands twice counts once. Refuses values that readers could not read. */
function put<K extends RecordKind>(
  all: AllProposals,
  kind: K,
  id: string,
  values: Registers[K],
  confidence: Certainty,
): void {
  const read = readValues(kind, values);
  if (read === null || !isRecordId(id)) throw new Refused("badHearing");
  if (!isFiniteNumber(confidence) || confidence < 0 || confidence > 1) throw new Refused("badHearing");
  const proposals: Proposals<K> = all[kind];
  if (!proposals.has(id)) proposals.set(id, { values: read, confidence });
}
