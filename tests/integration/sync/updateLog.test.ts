import { afterAll, beforeAll, expect, test } from "vitest";
import * as Y from "yjs";
import { createUpdateLog, SongGone, type UpdateLog } from "@/lib/server/sync/updateLog";
import { makeSong } from "../songs/makeSong";
import { openTestHouse, type TestHouse } from "../testHouse";
import { openWire, until, words } from "./hubHarness";

let house: TestHouse;
let log: UpdateLog;
beforeAll(async () => {
  house = await openTestHouse();
  log = createUpdateLog(house.db);
});
afterAll(() => house.close());

async function read(songId: string): Promise<Record<string, unknown>> {
  const doc = new Y.Doc();
  for (const update of (await log.load(songId)).updates) Y.applyUpdate(doc, update);
  return words(doc).toJSON();
}

/** Writes many small updates, deletions among them; gives what they come to. */
async function fill(songId: string, from: Y.Doc, count: number): Promise<Record<string, unknown>> {
  const updates: Uint8Array[] = [];
  const gather = (update: Uint8Array) => updates.push(update);
  from.on("update", gather);
  for (let i = 0; i < count; i++) {
    words(from).set(`k${i % 7}`, String(i));
    if (i % 3 === 0) words(from).delete(`k${i % 7}`);
  }
  from.off("update", gather);
  for (const update of updates) await log.append(songId, update);
  return words(from).toJSON();
}

test("folding the log leaves the song as it was, once and again", async () => {
  const songId = await makeSong(house.db);
  const source = new Y.Doc();
  const first = await fill(songId, source, 20);
  expect(await read(songId)).toEqual(first);
  await log.compact(songId);
  expect(await read(songId)).toEqual(first);
  expect(await house.db.docUpdate.count({ where: { songId } })).toBe(0);
  const second = await fill(songId, source, 13);
  expect(await read(songId)).toEqual(second);
  await log.compact(songId);
  await log.compact(songId);
  expect(await read(songId)).toEqual(second);
  expect(await house.db.docSnapshot.count({ where: { songId } })).toBe(1);
});

test("folding while others append loses nothing", async () => {
  const songId = await makeSong(house.db);
  const source = new Y.Doc();
  const appending = fill(songId, source, 40);
  for (let i = 0; i < 8; i++) await log.compact(songId);
  const shown = await appending;
  expect(await read(songId)).toEqual(shown);
});

test("a song that is gone takes no updates", async () => {
  const update = Y.encodeStateAsUpdate(new Y.Doc());
  await expect(log.append("no-such-song", update)).rejects.toThrow(SongGone);
});

test("through the hub: the log is folded as it grows and when the song is left, and reads the same after", async () => {
  const songId = await makeSong(house.db);
  const wire = await openWire({ db: house.db, timing: { compactAfter: 5, lingerMs: 40, gatherMs: 0 } });
  wire.roles.set("ann", "teacher");
  const ann = wire.page("ann", songId);
  await until("connected", () => ann.saved);
  for (let i = 0; i < 12; i++) {
    words(ann.doc).set(`k${i}`, String(i));
    await until("saved", () => ann.saved);
  }
  const shown = words(ann.doc).toJSON();
  const snapshots = () => house.db.docSnapshot.count({ where: { songId } });
  expect(await snapshots()).toBe(1);
  ann.close();
  let left = 1;
  for (let i = 0; i < 200 && left > 0; i++) {
    left = await house.db.docUpdate.count({ where: { songId } });
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  expect(left).toBe(0);
  expect(await read(songId)).toEqual(shown);
  const again = wire.page("ann", songId);
  await until("open again", () => again.status === "connected");
  expect(words(again.doc).toJSON()).toEqual(shown);
  await wire.close();
});

test("stopping the hub writes what was still waiting", async () => {
  const songId = await makeSong(house.db);
  const wire = await openWire({ db: house.db, timing: { gatherMs: 200 } });
  wire.roles.set("ann", "teacher");
  const ann = wire.page("ann", songId);
  await until("connected", () => ann.saved);
  const other = wire.page("ann", songId);
  await until("connected", () => other.status === "connected");
  words(ann.doc).set("x", "1");
  await until("the hub has it", () => words(other.doc).has("x"));
  await wire.close();
  expect(await read(songId)).toEqual({ x: "1" });
});
