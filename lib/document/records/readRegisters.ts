import type { ChordGuess, KeyGuess } from "@/lib/hearing/Hearing";
import {
  GUARDS,
  type Guards,
  isCertainty,
  isCount,
  isEpochMs,
  isFiniteNumber,
  isHomeKey,
  isLabel,
  isObject,
  isSigns,
  isTime,
  registerNames,
} from "./guards";
import { keptListening } from "./ListeningSettings";
import type { RecordKind } from "./records";
import type {
  Asides,
  CountedThrough,
  HeardSheet,
  Ink,
  KeptCheck,
  KeptListening,
  PassageSheet,
  Pencil,
  Registers,
  Restoring,
  Rub,
  SaidRole,
} from "./registers";
import { MACHINE } from "./Stamp";
import { FIRST_PART, isRecordId, RECORD_KINDS } from "./storage";

/** What older versions, which did not write a register, meant by leaving it out (rules D37, D48, D52). */
const LEFT_OUT: { readonly [K in RecordKind]?: Readonly<Record<string, unknown>> } = {
  part: { part: FIRST_PART, frets: null, harmonic: false, vibrato: false, block: false },
};

/** All registers of a record out of an unknown value; null unless every one is there and valid. */
export function readValues<K extends RecordKind>(kind: K, value: unknown): Registers[K] | null {
  if (!isObject(value)) return null;
  const values = readThose(kind, (name) =>
    Object.hasOwn(value, name) ? value[name] : LEFT_OUT[kind]?.[name],
  );
  return Object.keys(values).length === registerNames(kind).length ? (values as Registers[K]) : null;
}

/** Those registers of a kind that are there and valid. */
export function readEdits<K extends RecordKind>(
  kind: K,
  fields: ReadonlyMap<string, unknown>,
): Partial<Registers[K]> {
  return readThose(kind, (name) => fields.get(name));
}

function readThose<K extends RecordKind>(kind: K, lookUp: (name: string) => unknown): Partial<Registers[K]> {
  const edits: Partial<Registers[K]> = {};
  const guards: Guards<K> = GUARDS[kind];
  for (const name of registerNames(kind)) {
    const guard: (value: unknown) => value is Registers[K][typeof name] = guards[name];
    const value = lookUp(name);
    if (guard(value)) edits[name] = value;
  }
  return edits;
}

export function readPencil<K extends RecordKind>(kind: K, value: unknown): Pencil<K> | null {
  if (!isObject(value) || typeof value.by !== "string" || !isEpochMs(value.atMs)) return null;
  const { by, atMs, confidence, ear } = value;
  const values = readValues(kind, value.values);
  const aside = readAside(kind, value.aside);
  return (
    values && {
      by,
      atMs,
      confidence: isFiniteNumber(confidence) ? confidence : null,
      values,
      ...(aside && { aside }),
      ...(typeof ear === "string" && { ear }),
    }
  );
}

/** Ink whose values cannot be read still is ink; `values` is then null. */
export function readInk<K extends RecordKind>(
  kind: K,
  value: unknown,
): (Omit<Ink<K>, "values"> & { values: Registers[K] | null }) | null {
  if (!isObject(value)) return null;
  const { stamp, atMs, madeBy, madeAtMs } = value;
  if (typeof stamp !== "string" || typeof madeBy !== "string") return null;
  if (!isEpochMs(atMs) || !isEpochMs(madeAtMs)) return null;
  return { stamp, atMs, madeBy, madeAtMs, values: readValues(kind, value.values) };
}

export function readRub(value: unknown): Rub | null {
  const seen = readRestoring(value);
  if (seen === null || !isObject(value) || typeof value.stamp !== "string") return null;
  return { stamp: value.stamp, ...seen };
}

export function readRestoring(value: unknown): Restoring | null {
  if (!isObject(value) || !isEpochMs(value.atMs) || !Array.isArray(value.seen)) return null;
  return { atMs: value.atMs, seen: value.seen.filter((each) => typeof each === "string") };
}

export function readRole(value: unknown): SaidRole | null {
  if (!isObject(value) || !isEpochMs(value.atMs)) return null;
  const { whose, atMs } = value;
  return whose === "steel" || whose === "band" ? { whose, atMs } : null;
}

export function readCountedThrough(value: unknown): CountedThrough | null {
  if (!isObject(value) || !isEpochMs(value.atMs)) return null;
  const { times, fullSpeedTimes, atMs } = value;
  if (!isCount(times) || !isCount(fullSpeedTimes) || fullSpeedTimes > times) return null;
  return { times, fullSpeedTimes, atMs };
}

/** Settings that cannot be read stand as they do at first. */
export function readKeptListening(value: unknown): KeptListening | null {
  if (!isObject(value) || !isEpochMs(value.atMs) || typeof value.isLooped !== "boolean") return null;
  return { isLooped: value.isLooped, settings: keptListening(value.settings), atMs: value.atMs };
}

export function readKeptCheck(value: unknown): KeptCheck | null {
  if (!isObject(value) || !isEpochMs(value.atMs)) return null;
  const { fits, atMs } = value;
  return isSigns(fits) ? { fits, atMs } : null;
}

export function readHeardSheet(value: unknown): HeardSheet | null {
  if (!isObject(value) || !isObject(value.ids)) return null;
  const { runId, version, atMs, ids } = value;
  if (typeof runId !== "string" || typeof version !== "string" || !isEpochMs(atMs)) return null;
  const listOf = (list: unknown) =>
    Array.isArray(list) ? list.filter((each) => typeof each === "string") : [];
  const read = Object.fromEntries(RECORD_KINDS.map((kind) => [kind, listOf(ids[kind])]));
  return { runId, version, atMs, ids: read as HeardSheet["ids"] };
}

/** Notes that cannot be read are passed over. */
export function readPassageSheet(value: unknown): PassageSheet | null {
  if (!isObject(value) || !isTime(value.startSec) || !isTime(value.endSec)) return null;
  const { by, atMs, version, overRunId, startSec, endSec } = value;
  if (typeof by !== "string" || !isEpochMs(atMs) || typeof version !== "string") return null;
  if (overRunId !== null && typeof overRunId !== "string") return null;
  return {
    by,
    atMs,
    version,
    overRunId,
    startSec,
    endSec,
    notes: listOf(value.notes).flatMap(readPassageNote),
  };
}

function readPassageNote(value: unknown): PassageSheet["notes"] {
  const pencil = readPencil("note", value);
  if (!isObject(value) || !isRecordId(value.id) || pencil?.by !== MACHINE) return [];
  return [{ id: value.id, ...pencil }];
}

type AsideReaders = { readonly [K in RecordKind]: (aside: Record<string, unknown>) => Asides[K] | null };

const ASIDE_READERS: AsideReaders = {
  tuning: () => null,
  grid: ({ beatsConfidence, barsConfidence }) =>
    isCertainty(beatsConfidence) && isCertainty(barsConfidence) ? { beatsConfidence, barsConfidence } : null,
  home: ({ nextBest }) => ({ nextBest: listOf(nextBest).flatMap(readKeyGuess) }),
  change: ({ nextBest }) => ({ nextBest: listOf(nextBest).flatMap(readChordGuess) }),
  bass: () => null,
  section: () => null,
  note: ({ steel }) => (isCertainty(steel) ? { steel } : null),
  part: () => null,
  study: () => null,
};

/** What can be read of an aside; null where it says nothing. */
export function readAside<K extends RecordKind>(kind: K, value: unknown): Asides[K] | null {
  return isObject(value) ? ASIDE_READERS[kind](value) : null;
}

function readKeyGuess(value: unknown): KeyGuess[] {
  if (!isObject(value) || !isHomeKey(value) || !isCertainty(value.confidence)) return [];
  const { tonic, mode, confidence } = value;
  return [{ tonic, mode, confidence }];
}

function readChordGuess(value: unknown): ChordGuess[] {
  if (!isObject(value) || !isLabel(value.label) || !isCertainty(value.confidence)) return [];
  return [{ label: value.label, confidence: value.confidence }];
}

function listOf(value: unknown): unknown[] {
  return Array.isArray(value) ? value : [];
}
