import type * as Y from "yjs";
import type { Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { EpochMs } from "@/lib/units/quantities";
import { type CopedentSource, readCopedentSheet } from "../records/partHead";
import { COPEDENT_REGISTER, HEADS, recordMap, registerKey, THE_PART } from "../records/storage";

/** What is said once for a whole part. */
export interface PartHead {
  /** On what it is played; its id and name are those of where it was taken from. */
  copedent: Copedent;
  from: CopedentSource;
  /** Who chose it, and when; null where nobody did and the part is played on E9 (rule D38). */
  chosenBy: string | null;
  chosenAtMs: EpochMs | null;
}

const NOBODY_CHOSE: PartHead = {
  copedent: E9,
  from: { kind: "preset", id: E9.id },
  chosenBy: null,
  chosenAtMs: null,
};

/** Reads the head of the part. Never throws (rule D5). */
export function readHead(doc: Y.Doc): PartHead {
  const sheet = readCopedentSheet(recordMap(doc, HEADS).get(registerKey(THE_PART, COPEDENT_REGISTER)));
  if (sheet === null) return NOBODY_CHOSE;
  const { copedent, from, by, atMs } = sheet;
  return { copedent, from, chosenBy: by, chosenAtMs: atMs };
}
