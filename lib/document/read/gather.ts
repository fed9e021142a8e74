import type * as Y from "yjs";
import type { RecordKind } from "../records/records";
import { MACHINE } from "../records/Stamp";
import {
  INK_PREFIX,
  type MapName,
  mapsOf,
  PENCIL_REGISTER,
  RESTORE_PREFIX,
  ROLE_PREFIX,
  RUB_PREFIX,
  recordMap,
  splitKey,
} from "../records/storage";

/** All registers of one record as they lie in the document, not yet judged. */
export interface RawRecord {
  id: string;
  /** The map in which it lies. */
  map: MapName;
  pencil: unknown;
  /** By the id of the person who inked. */
  inks: ReadonlyMap<string, unknown>;
  /** By the id of the person who rubbed out. */
  rubs: ReadonlyMap<string, unknown>;
  /** By the id of the person who put it back. */
  restorings: ReadonlyMap<string, unknown>;
  /** By the id of the person who said whose it is. */
  roles: ReadonlyMap<string, unknown>;
  fields: ReadonlyMap<string, unknown>;
}

/** Stands where a record has nothing of a sort: most of the thousands have a pencil and no more. */
const NONE: ReadonlyMap<string, unknown> = new Map();

/** Sorts the registers of one kind by the record they belong to. */
export function gather(doc: Y.Doc, kind: RecordKind): Map<string, RawRecord> {
  const records = new Map<string, RawRecord>();
  for (const map of mapsOf(kind)) gatherMap(doc, map, records);
  return records;
}

/** Ink under the machine's name is none (rule D7). An id that lies in a map before this one is that record's. */
function gatherMap(doc: Y.Doc, map: MapName, records: Map<string, RawRecord>): void {
  recordMap(doc, map).forEach((value, key) => {
    const parts = splitKey(key);
    if (parts === null) return;
    const { recordId: id, register } = parts;
    let raw = records.get(id);
    if (raw === undefined) {
      raw = bareRecord(id, map);
      records.set(id, raw);
    }
    if (raw.map !== map) return;
    if (register === PENCIL_REGISTER) raw.pencil = value;
    else if (register === INK_PREFIX + MACHINE) return;
    else if (register.startsWith(INK_PREFIX)) raw.inks = withOne(raw.inks, register, INK_PREFIX, value);
    else if (register.startsWith(RUB_PREFIX)) raw.rubs = withOne(raw.rubs, register, RUB_PREFIX, value);
    else if (register.startsWith(RESTORE_PREFIX))
      raw.restorings = withOne(raw.restorings, register, RESTORE_PREFIX, value);
    else if (register.startsWith(ROLE_PREFIX)) raw.roles = withOne(raw.roles, register, ROLE_PREFIX, value);
    else raw.fields = withOne(raw.fields, register, "", value);
  });
}

/** A record without registers. */
export function bareRecord(id: string, map: MapName): RawRecord {
  return { id, map, pencil: undefined, inks: NONE, rubs: NONE, restorings: NONE, roles: NONE, fields: NONE };
}

function withOne(map: ReadonlyMap<string, unknown>, register: string, prefix: string, value: unknown) {
  return new Map(map).set(register.slice(prefix.length), value);
}
