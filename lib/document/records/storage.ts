import type * as Y from "yjs";
import type { COVERS } from "./covers";
import type { GUESSES } from "./guesses";
import type { QUESTIONS, SAID } from "./questions";
import type { RecordKind } from "./records";

/** Number of the storage layout below; written to the song map as `schema` (rule D18). */
export const SCHEMA = 3;

/** Every kind of record, each with a map of that name at the top of the document. */
export const RECORD_KINDS = [
  "tuning",
  "grid",
  "home",
  "change",
  "bass",
  "section",
  "note",
  "part",
  "study",
] as const satisfies readonly RecordKind[];

/** The maps that are laid out as a kind's. */
export type MapName =
  | RecordKind
  | typeof OTHER_EVENTS
  | typeof PASSAGES
  | typeof HEADS
  | typeof BEGUN
  | typeof COVERS
  | typeof GUESSES
  | typeof QUESTIONS
  | typeof SAID;

/** The flat map that holds all registers of one kind: `${recordId}.${register}` to plain JSON. */
export function recordMap(doc: Y.Doc, kind: MapName): Y.Map<unknown> {
  return doc.getMap(kind);
}

/** The map of what was heard of passages alone (rule D29), laid out as a kind's; its records hold one register. */
export const PASSAGES = "passage";
export const SHEET_REGISTER = "sheet";

/** The map of what is said once for a whole part (rule D38), laid out as a kind's; its records are named by the part. */
export const HEADS = "head";
export const COPEDENT_REGISTER = "copedent";
export const NAME_REGISTER = "name";
export const STANDS_REGISTER = "stands";
/** The id of the first part, which every song has. */
export const FIRST_PART = "part";

/** The map of what each part but the first was made as (rule D55), laid out alike, under {@link SHEET_REGISTER}; undo leaves it. */
export const BEGUN = "begun";

/** The map of the events of all parts but the first: older readers, which know one part, pass over it (rule D52). */
export const OTHER_EVENTS = "otherEvent";

/** The maps that together hold the records of a kind. */
export function mapsOf(kind: RecordKind): readonly MapName[] {
  return kind === "part" ? [kind, OTHER_EVENTS] : [kind];
}

/** The map of what is said once for the whole song: `schema` and `heard`. */
export function songMap(doc: Y.Doc): Y.Map<unknown> {
  return doc.getMap("song");
}

/** Whether a newer Liftbook wrote this document, so that this one may only read it. */
export function isNewer(doc: Y.Doc): boolean {
  const schema = songMap(doc).get("schema");
  return schema !== undefined && !(typeof schema === "number" && schema <= SCHEMA);
}

/** Names of the registers that belong to a record as a whole; all others are named by its fields. */
export const PENCIL_REGISTER = "pencil";
export const INK_PREFIX = "ink.";
export const RUB_PREFIX = "rub.";
export const RESTORE_PREFIX = "restore.";
export const ROLE_PREFIX = "role.";
/** Of studies; after this prefix stand the person, a dot, and the device. */
export const THROUGH_PREFIX = "through.";
/** The same, for clean takes. */
export const CLEAN_PREFIX = "clean.";
export const LISTEN_PREFIX = "listen.";
export const CHECK_PREFIX = "check.";

/** Key of a register. `recordId` must hold no `.`; what follows the first `.` is the register's name. */
export function registerKey(recordId: string, register: string): string {
  return `${recordId}.${register}`;
}

/** The inverse of {@link registerKey}; null for a key that names no record. */
export function splitKey(key: string): { recordId: string; register: string } | null {
  const dot = key.indexOf(".");
  return dot > 0 ? { recordId: key.slice(0, dot), register: key.slice(dot + 1) } : null;
}

/** Whether a text can stand as the id of a record. */
export function isRecordId(text: unknown): text is string {
  return typeof text === "string" && text.length > 0 && text.length <= 64 && !text.includes(".");
}
