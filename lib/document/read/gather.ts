import type * as Y from "yjs";
import type { RecordKind } from "../records/records";
import { MACHINE } from "../records/Stamp";
import {
  INK_PREFIX,
  PENCIL_REGISTER,
  RESTORE_PREFIX,
  RUB_PREFIX,
  recordMap,
  splitKey,
} from "../records/storage";

/** All registers of one record as they lie in the document, not yet judged. */
export interface RawRecord {
  id: string;
  pencil: unknown;
  /** By the id of the person who inked. */
  inks: Map<string, unknown>;
  /** By the id of the person who rubbed out. */
  rubs: Map<string, unknown>;
  /** By the id of the person who put it back. */
  restorings: Map<string, unknown>;
  fields: Map<string, unknown>;
}

/** Sorts the registers of one kind by the record they belong to. Ink under the machine's name is none (rule D7). */
export function gather(doc: Y.Doc, kind: RecordKind): Map<string, RawRecord> {
  const records = new Map<string, RawRecord>();
  recordMap(doc, kind).forEach((value, key) => {
    const parts = splitKey(key);
    if (parts === null) return;
    const { recordId: id, register } = parts;
    let raw = records.get(id);
    if (raw === undefined) {
      raw = {
        id,
        pencil: undefined,
        inks: new Map(),
        rubs: new Map(),
        restorings: new Map(),
        fields: new Map(),
      };
      records.set(id, raw);
    }
    if (register === PENCIL_REGISTER) raw.pencil = value;
    else if (register === INK_PREFIX + MACHINE) return;
    else if (register.startsWith(INK_PREFIX)) raw.inks.set(register.slice(INK_PREFIX.length), value);
    else if (register.startsWith(RUB_PREFIX)) raw.rubs.set(register.slice(RUB_PREFIX.length), value);
    else if (register.startsWith(RESTORE_PREFIX))
      raw.restorings.set(register.slice(RESTORE_PREFIX.length), value);
    else raw.fields.set(register, value);
  });
  return records;
}
