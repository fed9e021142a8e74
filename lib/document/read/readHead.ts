import type * as Y from "yjs";
import type { Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { EpochMs } from "@/lib/units/quantities";
import { type CopedentSource, readCopedentSheet, readPartName, readStands } from "../records/partHead";
import {
  BEGUN,
  COPEDENT_REGISTER,
  FIRST_PART,
  HEADS,
  NAME_REGISTER,
  recordMap,
  registerKey,
  SHEET_REGISTER,
  STANDS_REGISTER,
  splitKey,
} from "../records/storage";

/** What is said once for a whole part. */
export interface PartHead {
  /** On what it is played; its id and name are those of where it was taken from. */
  copedent: Copedent;
  from: CopedentSource;
  /** Who chose it, and when; null where nobody did and the part is played on E9 (rule D38). */
  chosenBy: string | null;
  chosenAtMs: EpochMs | null;
}

/** What is said of a part apart from its events. */
export interface SaidPart {
  id: string;
  /** Empty where it is called by its place in the order (rule D53). */
  name: string;
  head: PartHead;
  /** Who made it, and when; null for the first, and where that is not known. */
  madeBy: string | null;
  madeAtMs: EpochMs | null;
  /** Whether it is there, whatever is written in it (rule D54). */
  isThere: boolean;
}

const NOBODY_CHOSE: PartHead = {
  copedent: E9,
  from: { kind: "preset", id: E9.id },
  chosenBy: null,
  chosenAtMs: null,
};

/** What is said of a part; of one of which nothing is known, that it is not there. Never throws (rule D5). */
export function readSaidPart(doc: Y.Doc, id: string): SaidPart {
  const heads = recordMap(doc, HEADS);
  const begunAs = id === FIRST_PART ? undefined : recordMap(doc, BEGUN).get(registerKey(id, SHEET_REGISTER));
  const begun = readCopedentSheet(begunAs);
  const sheet = readCopedentSheet(heads.get(registerKey(id, COPEDENT_REGISTER))) ?? begun;
  return {
    id,
    name: readPartName(heads.get(registerKey(id, NAME_REGISTER))) ?? readPartName(begunAs) ?? "",
    head:
      sheet === null
        ? NOBODY_CHOSE
        : { copedent: sheet.copedent, from: sheet.from, chosenBy: sheet.by, chosenAtMs: sheet.atMs },
    madeBy: begun?.by ?? null,
    madeAtMs: begun?.atMs ?? null,
    isThere: id === FIRST_PART || readStands(heads.get(registerKey(id, STANDS_REGISTER))),
  };
}

/** What is said of every part that the document knows of, those too that were taken away; in no order but the first's. */
export function readSaidParts(doc: Y.Doc): SaidPart[] {
  const ids = new Set([FIRST_PART]);
  for (const map of [HEADS, BEGUN] as const) {
    recordMap(doc, map).forEach((_, key) => {
      const id = splitKey(key)?.recordId;
      if (id !== undefined) ids.add(id);
    });
  }
  return [...ids].map((id) => readSaidPart(doc, id));
}
