import * as Y from "yjs";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import {
  BESIDE_SEC,
  type CoveredSong,
  coverSong,
  LANE_OF,
  type Reader,
  stretchTaken,
} from "../read/coverSong";
import { readCovers } from "../read/readCovers";
import { readHomes } from "../read/readHomes";
import { readSong } from "../read/readSong";
import type { SongSnapshot } from "../read/SongSnapshot";
import { type Settled, settleKind } from "../read/settle";
import { COVERED_KINDS, type CoveredKind, shownOf } from "../read/shownOf";
import { clipped, leftBeside } from "../read/stretches";
import { readPassageSheet } from "../records/readRegisters";
import { COPEDENT_REGISTER, HEADS, mapsOf, PASSAGES, recordMap, songMap, splitKey } from "../records/storage";
import type { Write } from "./act";
import { Refused } from "./refusals";

/**
 * Holds a person's commands to what that person sees (rule D58): gives what looks at their writes, for a command's context.
 * It costs nothing while no cover lies for the reader.
 */
export function keepFromCovers(doc: Y.Doc, reader: Reader): (writes: readonly Write[]) => void {
  return (writes) => {
    const lies = readCovers(doc).covers.some((cover) =>
      cover.coveredFor === "students" ? reader.isStudent : cover.by === reader.id,
    );
    if (!lies || writes.length === 0) return;
    const whole = readSong(doc);
    const seen = coverSong(whole, reader);
    for (const kind of COVERED_KINDS) checkKind(doc, kind, writes, whole, seen);
    checkPassages(writes, seen);
    const newlyOn = writes.flatMap(({ kind, key }) => {
      const named = kind === HEADS ? splitKey(key) : null;
      return named?.register === COPEDENT_REGISTER ? [named.recordId] : [];
    });
    const isUnseen = whole.parts.some(
      ({ id, events }) => newlyOn.includes(id) && events.some((event) => seen.hides("part", event)),
    );
    if (isUnseen) throw new Refused("underCover");
  };
}

function checkKind<K extends CoveredKind>(
  doc: Y.Doc,
  kind: K,
  writes: readonly Write[],
  whole: SongSnapshot,
  seen: CoveredSong,
): void {
  const ids = new Set(
    writes.flatMap((write) =>
      mapsOf(kind).includes(write.kind) ? (splitKey(write.key)?.recordId ?? []) : [],
    ),
  );
  if (ids.size === 0) return;
  // Where a home ends, the others say.
  const isWanted = ({ id }: { id: string }) => kind === "home" || ids.has(id);
  const before = settleKind(doc, kind, isWanted);
  const after = settleKind(written(doc, kind, writes, isWanted), kind, isWanted);
  const covers = seen.stretches[LANE_OF[kind]!];
  const homesAfter = kind === "home" ? homesOf(after) : [];
  for (const id of ids) {
    const was = before.get(id);
    if (was && isKept(kind, was, whole, seen)) throw new Refused("underCover");
    const is = after.get(id);
    if (is?.standing !== "shown") continue;
    const wasThere = was?.standing === "shown" ? [stretchTaken(kind, was.record, whole.homes)] : [];
    const reach = underneath(covers, stretchTaken(kind, is.record, homesAfter));
    if (reach.some((each) => leftBeside(each, wasThere, BESIDE_SEC).length > 0))
      throw new Refused("underCover");
    const isMoreStrings = !stringsOf(is).every((string) => was && stringsOf(was).includes(string));
    if (reach.length > 0 && isMoreStrings) throw new Refused("underCover");
  }
}

/** Whether anything of a record is kept from the reader: wherever it is shown, else where it was written. */
function isKept<K extends CoveredKind>(
  kind: K,
  { id, record }: Settled<K>,
  whole: SongSnapshot,
  seen: CoveredSong,
): boolean {
  const shown = shownOf(kind, whole).filter((each) => each.id === id);
  return (shown.length > 0 ? shown : [record]).some((each) => seen.hides(kind, each));
}

/** A copy of what is wanted of one kind, with the writes made: what the records would be. */
function written(
  doc: Y.Doc,
  kind: CoveredKind,
  writes: readonly Write[],
  isWanted: (record: { id: string }) => boolean,
): Y.Doc {
  const copy = new Y.Doc();
  const heard = songMap(doc).get("heard");
  if (heard !== undefined) songMap(copy).set("heard", heard);
  for (const map of [...mapsOf(kind), PASSAGES] as const)
    recordMap(doc, map).forEach((value, key) => {
      if (map === PASSAGES || isWanted({ id: splitKey(key)?.recordId ?? "" }))
        recordMap(copy, map).set(key, value);
    });
  for (const { kind: map, key, value } of writes) {
    if (!mapsOf(kind).includes(map)) continue;
    if (value === undefined) recordMap(copy, map).delete(key);
    else recordMap(copy, map).set(key, value);
  }
  return copy;
}

function homesOf(settled: ReadonlyMap<string, Settled<CoveredKind>>) {
  const standing = [...settled.values()] as Settled<"home">[];
  return readHomes(standing.filter(({ standing: how }) => how === "shown").map(({ record }) => record));
}

function stringsOf({ record }: Settled<CoveredKind>): readonly number[] {
  return "strings" in record ? record.strings : [];
}

/** What of a stretch lies under covers, but for what lies beside them. */
function underneath(covers: readonly HeardStretch[], stretch: HeardStretch): HeardStretch[] {
  return covers
    .map((each) => clipped(stretch, each))
    .filter(({ startSec, endSec }) => endSec - startSec > BESIDE_SEC);
}

function checkPassages(writes: readonly Write[], { stretches }: CoveredSong): void {
  for (const { kind, value } of writes) {
    const sheet = kind === PASSAGES ? readPassageSheet(value) : null;
    if (sheet && underneath(stretches.heard, sheet).length > 0) throw new Refused("underCover");
  }
}
