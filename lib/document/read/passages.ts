import type * as Y from "yjs";
import type { EpochMs, Seconds } from "@/lib/units/quantities";
import { isObject } from "../records/guards";
import { readPassageSheet } from "../records/readRegisters";
import type { HeardSheet, PassageSheet } from "../records/registers";
import { PASSAGES, recordMap, SHEET_REGISTER, splitKey } from "../records/storage";
import { bareRecord, type RawRecord } from "./gather";
import { compareText } from "./rank";

/** One hearing of a passage alone. */
export interface Passage extends PassageSheet {
  id: string;
}

/** A hearing of a passage, as pages tell of it. */
export interface ShownPassage {
  id: string;
  startSec: Seconds;
  endSec: Seconds;
  /** Who had it heard. */
  by: string;
  atMs: EpochMs;
}

/** Every hearing of a passage in the document that can be read, those too that no longer hold. */
export function readPassages(doc: Y.Doc): Passage[] {
  const passages: Passage[] = [];
  recordMap(doc, PASSAGES).forEach((value, key) => {
    const parts = splitKey(key);
    const sheet = parts?.register === SHEET_REGISTER ? readPassageSheet(value) : null;
    if (parts && sheet) passages.push({ id: parts.recordId, ...sheet });
  });
  return passages;
}

/** Those that were heard over the latest hearing of the whole song, the one that wins first (rule D29). */
export function passagesThatHold(doc: Y.Doc, heard: HeardSheet | null): Passage[] {
  const runId = heard?.runId ?? null;
  return readPassages(doc)
    .filter(({ overRunId }) => overRunId === runId)
    .sort((a, b) => b.atMs - a.atMs || compareText(b.id, a.id));
}

/** Whether what begins then is told by the passage. */
export function beginsIn({ startSec, endSec }: { startSec: Seconds; endSec: Seconds }, timeSec: Seconds) {
  return startSec <= timeSec && timeSec < endSec;
}

/**
 * Lays what passages found over the pencil of the whole song: where a passage holds, its notes are proposed and no
 * others.
 * @param passages the one that wins first
 * @param records of notes; their pencil becomes that of the passage that tells them
 * @param proposedIds ids of the notes that the whole hearing proposes; becomes those of all that hold
 */
export function layPassages(
  passages: readonly Passage[],
  records: Map<string, RawRecord>,
  proposedIds: Set<string>,
): void {
  if (passages.length === 0) return;
  for (const id of proposedIds) {
    const startSec = startOf(records.get(id)?.pencil);
    if (passages.some((passage) => beginsIn(passage, startSec))) proposedIds.delete(id);
  }
  const told = new Set<string>();
  passages.forEach((passage, index) => {
    for (const { id, ...pencil } of passage.notes) {
      const { startSec } = pencil.values;
      const isElsewhere = !beginsIn(passage, startSec);
      if (isElsewhere || told.has(id)) continue;
      if (passages.slice(0, index).some((newer) => beginsIn(newer, startSec))) continue;
      told.add(id);
      proposedIds.add(id);
      records.set(id, { ...(records.get(id) ?? bareRecord(id, "note")), pencil });
    }
  });
}

/** When a pencil begins that has not been read yet; NaN where it does not say. */
function startOf(pencil: unknown): Seconds {
  const values = isObject(pencil) ? pencil.values : null;
  return isObject(values) && typeof values.startSec === "number" ? values.startSec : Number.NaN;
}
