import type * as Y from "yjs";
import type { EpochMs } from "@/lib/units/quantities";
import {
  readEdits,
  readHeardSheet,
  readInk,
  readPencil,
  readRestoring,
  readRole,
  readRub,
} from "../records/readRegisters";
import type { NoteRole, RecordBase, RecordKind, RecordKinds } from "../records/records";
import type { HeardSheet, Pencil, Registers } from "../records/registers";
import { MACHINE } from "../records/Stamp";
import { type MapName, songMap } from "../records/storage";
import { type Beside, flatten } from "./flatten";
import { gather, type RawRecord } from "./gather";
import { layPassages, passagesThatHold } from "./passages";
import { compareText } from "./rank";
import { NO_PRACTICE, readPractice } from "./readPractice";

/** Whether readers see a record, and if not, why. */
export type Standing =
  | "shown"
  /** Every ink it has was seen by someone who rubbed it out (rule D9). */
  | "rubbedOut"
  /** The machine's pencil that the latest hearing no longer proposes (rules D8, D29). */
  | "retired";

/** One record after its registers were judged. */
export interface Settled<K extends RecordKind> {
  id: string;
  /** The map in which its registers lie. */
  map: MapName;
  record: RecordKinds[K];
  standing: Standing;
  /** What each register says, edited ones over the pinned values. */
  values: Registers[K];
  /** The values below the edited registers. */
  pinned: Registers[K];
  isInk: boolean;
  /** What the machine proposes of it; null where a person made it. */
  proposal: Pencil<K> | null;
  /** Stamps of all ink on the record. */
  inkStamps: string[];
  /** Who rubbed it out, and when, as far as nobody put it back. */
  rubs: { by: string; atMs: EpochMs }[];
  /** Stamps of every rubbing-out, those that were put back too. */
  rubStamps: string[];
  /** Registers that the document holds beside pencil, ink and rub. */
  fieldNames: string[];
}

/** Reads the list of what the latest hearing found; null before any. */
export function readHeard(doc: Y.Doc): HeardSheet | null {
  return readHeardSheet(songMap(doc).get("heard"));
}

/**
 * All records of one kind that can be read, hidden ones too, by id. Others stay in the document (rule D5).
 * @param isWanted leaves out what need not be judged; by default nothing
 */
export function settleKind<K extends RecordKind>(
  doc: Y.Doc,
  kind: K,
  isWanted: (raw: RawRecord) => boolean = () => true,
): Map<string, Settled<K>> {
  const heard = readHeard(doc);
  const records = gather(doc, kind);
  const heardIds = new Set(heard?.ids[kind]);
  if (kind === "note") layPassages(passagesThatHold(doc, heard), records, heardIds);
  const settled = new Map<string, Settled<K>>();
  for (const raw of records.values()) {
    if (!isWanted(raw)) continue;
    const one = settle(kind, raw, heardIds);
    if (one !== null) settled.set(raw.id, one);
  }
  return settled;
}

function settle<K extends RecordKind>(
  kind: K,
  raw: RawRecord,
  heardIds: ReadonlySet<string>,
): Settled<K> | null {
  const pencil = readPencil(kind, raw.pencil);
  const inks = readInks(kind, raw);
  const pinned = inks.find((ink) => ink.values !== null)?.values ?? pencil?.values;
  if (pinned === undefined) return null;

  const newest = inks[0];
  const edited = newest === undefined ? {} : readEdits(kind, raw.fields);
  const values: Registers[K] = { ...pinned, ...edited };
  const proposal = pencil?.by === MACHINE ? pencil : null;
  const madeBy = pencil?.by ?? newest?.madeBy ?? MACHINE;
  const madeAtMs = pencil?.atMs ?? newest?.madeAtMs ?? 0;
  const base: RecordBase = {
    id: raw.id,
    mark: newest === undefined ? "pencil" : "ink",
    confidence: Object.keys(edited).length > 0 ? null : (pencil?.confidence ?? null),
    madeBy,
    madeAtMs,
    editedBy: newest?.by ?? madeBy,
    editedAtMs: newest?.atMs ?? madeAtMs,
  };

  const allRubs = raw.rubs.size === 0 ? [] : readRubs(raw);
  const undone = new Set(allRubs.length === 0 ? [] : readUndone(raw));
  const rubs = allRubs.filter((rub) => !undone.has(rub.stamp));
  const seen = new Set(rubs.flatMap((rub) => rub.seen));
  const isRetired = newest === undefined && proposal !== null && !heardIds.has(raw.id);
  const inkStamps = inks.map((ink) => ink.stamp);
  const isRubbedOut = rubs.length > 0 && inkStamps.every((stamp) => seen.has(stamp));
  return {
    id: raw.id,
    map: raw.map,
    record: flatten(kind, values, proposal, base, besideOf(kind, raw)),
    standing: isRetired ? "retired" : isRubbedOut ? "rubbedOut" : "shown",
    values,
    pinned,
    isInk: newest !== undefined,
    proposal,
    inkStamps,
    rubs: rubs.map(({ by, atMs }) => ({ by, atMs })),
    rubStamps: allRubs.map((rub) => rub.stamp),
    fieldNames: [...raw.fields.keys()],
  };
}

/** Newest first; at the same millisecond the higher person id. */
function readInks<K extends RecordKind>(kind: K, raw: RawRecord) {
  if (raw.inks.size === 0) return [];
  return [...raw.inks]
    .flatMap(([by, value]) => {
      const ink = readInk(kind, value);
      return ink === null ? [] : [{ ...ink, by }];
    })
    .sort((a, b) => b.atMs - a.atMs || compareText(b.by, a.by));
}

function besideOf(kind: RecordKind, raw: RawRecord): Beside {
  return { role: latestRole(raw), practice: kind === "study" ? readPractice(raw.fields) : NO_PRACTICE };
}

/** Whose the record was last said to be (rule D31). */
function latestRole(raw: RawRecord): NoteRole | null {
  if (raw.roles.size === 0) return null;
  const roles = [...raw.roles].flatMap(([by, value]) => {
    const role = readRole(value);
    return role === null ? [] : [{ ...role, by }];
  });
  return roles.sort((a, b) => b.atMs - a.atMs || compareText(b.by, a.by))[0] ?? null;
}

/** Stamps of the rubbings-out that someone put back. */
function readUndone(raw: RawRecord): string[] {
  return [...raw.restorings.values()].flatMap((each) => readRestoring(each)?.seen ?? []);
}

function readRubs(raw: RawRecord) {
  return [...raw.rubs]
    .flatMap(([by, value]) => {
      const rub = readRub(value);
      return rub === null ? [] : [{ ...rub, by }];
    })
    .sort((a, b) => compareText(a.by, b.by));
}
