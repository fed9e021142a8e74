import { equalityDeep } from "lib0/function";
import type * as Y from "yjs";
import { COVERS } from "../records/covers";
import { GUESSES } from "../records/guesses";
import { QUESTIONS, SAID } from "../records/questions";
import type { RecordKind } from "../records/records";
import { BEGUN, HEADS, mapsOf, PASSAGES, RECORD_KINDS, recordMap, songMap } from "../records/storage";
import { type Readings, readApart, readKind, readKinds, toSnapshot } from "./readSong";
import type { SongSnapshot } from "./SongSnapshot";

/**
 * Calls `onChange` with the song at once, and again after every transaction that changes what is shown, once a
 * transaction. Whatever did not change, record, list or whole kind, is the very same object as before (rule D19).
 * @returns the way to stop
 */
export function watchSong(doc: Y.Doc, onChange: (song: SongSnapshot) => void): () => void {
  const song = songMap(doc);
  const passages = recordMap(doc, PASSAGES);
  const mapsApart = ([HEADS, BEGUN, COVERS, GUESSES, QUESTIONS, SAID] as const).map((name) =>
    recordMap(doc, name),
  );
  let readings = readKinds(doc);
  let apart = readApart(doc);
  let snapshot = toSnapshot(doc, readings, apart);

  const readAgain = <K extends RecordKind>(next: Readings, kind: K): void => {
    next[kind] = keepSame(readings[kind], readKind(doc, kind)) as Readings[K];
  };
  const afterTransaction = ({ changed }: Y.Transaction): void => {
    const touched = new Set<unknown>(changed.keys());
    const isTouched = (kind: RecordKind): boolean =>
      touched.has(song) ||
      mapsOf(kind).some((map) => touched.has(recordMap(doc, map))) ||
      (kind === "note" && touched.has(passages));
    const kinds = RECORD_KINDS.filter(isTouched);
    const isApart = mapsApart.some((map) => touched.has(map));
    if (kinds.length === 0 && !isApart) return;
    const next = { ...readings };
    if (isApart) apart = keepSame(apart, readApart(doc));
    for (const kind of kinds) readAgain(next, kind);
    readings = next;
    const now = keepSame(snapshot, toSnapshot(doc, readings, apart));
    if (now === snapshot) return;
    snapshot = now;
    onChange(snapshot);
  };
  doc.on("afterTransaction", afterTransaction);
  onChange(snapshot);
  return () => doc.off("afterTransaction", afterTransaction);
}

/** `next`, with every part of it that equals a part of `before` replaced by that very part. */
function keepSame<T>(before: T, next: T): T {
  if (equalityDeep(before, next)) return before;
  if (Array.isArray(before) && Array.isArray(next)) return keepSameList(before, next) as T;
  if (isPlain(before) && isPlain(next)) {
    return Object.fromEntries(
      Object.entries(next).map(([name, value]) => [name, keepSame(before[name], value)]),
    ) as T;
  }
  return next;
}

/** Lists of records: a record is looked up by its id and stretch, for its place may have moved. */
function keepSameList(before: readonly unknown[], next: readonly unknown[]): unknown[] {
  const known = new Map(before.map((each) => [nameOf(each), each]));
  return next.map((each) => (isPlain(each) ? keepSame(known.get(nameOf(each)), each) : each));
}

function nameOf(record: unknown): string {
  return isPlain(record) ? `${record.id}:${record.stretch ?? 0}` : "";
}

function isPlain(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
