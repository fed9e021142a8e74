import { randomUUID } from "node:crypto";
import { rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { readSong } from "@/lib/document/read/readSong";
import { addSong } from "@/lib/server/services/addSong";
import { startHearing } from "@/lib/server/services/startHearing";
import { findEarCopy } from "@/lib/server/storage/earCopyRows";
import { openSongHouse } from "../songs/songHouse";
import { toneFile } from "../songs/toneFile";
import { until } from "../sync/hubHarness";
import { endless, HEARD, RunHouse } from "./runHouse";

let house: RunHouse;
beforeAll(async () => {
  house = await RunHouse.start();
});
afterEach(() => house.clear());
afterAll(() => house.close());

test("a run: progress is told, peaks and answer are stored, pencil is written, and the run is done", async () => {
  const { songId, runId, sha256 } = await house.makeRun();
  const jobs = await house.openJobs(async (order, events) => {
    expect(order.peaksWanted).toBe(true);
    events.progress("decode", 0.5);
    await events.peaks(Uint8Array.of(1, 2, 3));
    await writeFile(order.earCopyPath!, "a copy");
    await events.earCopy();
    events.progress("tuning", 0);
    return HEARD;
  });
  await house.untilState(runId, "done");
  const run = await house.db.hearingRun.findUniqueOrThrow({ where: { id: runId } });
  expect(run).toMatchObject({ result: HEARD, version: "invented-1", fraction: 1, errorCode: null });
  const peaks = await house.db.peaks.findUniqueOrThrow({ where: { sha256 } });
  expect([...peaks.data]).toEqual([1, 2, 3]);
  const blobs = await house.openBlobs();
  expect(await findEarCopy(house.db, blobs, sha256)).toMatchObject({ byteCount: "a copy".length });
  const song = readSong(house.docs.get(songId)!);
  expect(song.changes.map(({ label, mark }) => [label, mark])).toEqual([["G:maj", "pencil"]]);
  expect(song.notes.map(({ midi, mark }) => [midi, mark])).toEqual([[64, "pencil"]]);
  await until("done is told", () => house.told.at(-1)?.state === "done");
  const steps = house.told.map(({ state, step }) => `${state} ${step}`);
  expect(steps).toEqual(["running null", "running decode", "running tuning", "done null"]);
  const fractions = house.told.map(({ fraction }) => fraction);
  expect(fractions).toEqual([...fractions].sort((a, b) => a - b));
  expect(jobs).toBeDefined();
});

test("a run whose copy for the ear cannot be kept is done all the same", async () => {
  const { runId, sha256 } = await house.makeRun();
  let wasAsked = false;
  await house.openJobs(async (order, events) => {
    await rm(order.earCopyPath!, { force: true });
    await events.earCopy();
    wasAsked = true;
    return HEARD;
  });
  await house.untilState(runId, "done");
  expect(wasAsked).toBe(true);
  expect(await house.db.earCopy.count({ where: { recordSha256: sha256 } })).toBe(0);
});

test("startHearing in a transaction: queued only if that commits", async () => {
  let heard = 0;
  const jobs = await house.openJobs(async () => {
    heard++;
    return HEARD;
  });
  const { songId, runId } = await house.makeRun();
  await house.db.hearingRun.delete({ where: { id: runId } });
  const undone = randomUUID();
  const broken = house.db.$transaction(async (tx) => {
    await tx.hearingRun.create({ data: { id: undone, songId } });
    await jobs.startHearing(undone, songId, tx);
    throw new Error("undone");
  });
  await expect(broken).rejects.toThrow("undone");
  const kept = randomUUID();
  await house.db.$transaction(async (tx) => {
    await tx.hearingRun.create({ data: { id: kept, songId } });
    await jobs.startHearing(kept, songId, tx);
  });
  jobs.wake();
  await house.untilState(kept, "done");
  expect(heard).toBe(1);
});

test("cancelling ends the thread's work, and a cancelled run writes nothing", async () => {
  const { songId, runId } = await house.makeRun();
  const jobs = await house.openJobs(endless);
  await until("it runs", () => house.told.some(({ step }) => step === "beats"));
  await jobs.cancelHearing(runId);
  expect(await house.stateOf(runId)).toBe("cancelled");
  expect(house.told.at(-1)).toMatchObject({ runId, state: "cancelled" });
  expect(house.edits).toBe(0);
  expect(house.docs.has(songId)).toBe(false);
});

test("a run cancelled while it waits is never heard", async () => {
  const first = await house.makeRun();
  const jobs = await house.openJobs(endless);
  const runs = (id: string) => house.told.some(({ runId, step }) => runId === id && step === "beats");
  await until("the first runs", () => runs(first.runId));
  const second = await house.makeRun();
  await jobs.startHearing(second.runId, second.songId);
  await jobs.cancelHearing(second.runId);
  await jobs.cancelHearing(first.runId);
  const third = await house.makeRun();
  await jobs.startHearing(third.runId, third.songId);
  await until("the third runs", () => runs(third.runId));
  expect(house.told.filter(({ runId }) => runId === second.runId).map(({ state }) => state)).toEqual([
    "cancelled",
  ]);
});

test("a song that was heard, or whose hearing was cancelled, is heard again when a writer asks", async () => {
  const house = await openSongHouse({ hear: async () => HEARD });
  try {
    const path = join(house.config.dataFolder, "tone.wav");
    await writeFile(path, toneFile(1));
    const { id } = await addSong(house, house.maker, house.bookId, { path, fileName: "a.wav" });
    const runs = () => house.db.hearingRun.findMany({ where: { songId: id }, orderBy: { createdAt: "asc" } });
    const untilOver = async (count: number) => {
      for (let all = await runs(); all.length < count || all.some((run) => run.finishedAt === null); )
        all = await runs();
    };
    await untilOver(1);
    expect(await startHearing(house, house.student, id)).toMatchObject({ state: "waiting" });
    await untilOver(2);
    await house.db.hearingRun.updateMany({ where: { songId: id }, data: { state: "cancelled" } });
    expect(await startHearing(house, house.student, id)).toMatchObject({ state: "waiting" });
    await untilOver(3);
    expect((await runs()).map((run) => run.state)).toEqual(["cancelled", "cancelled", "done"]);
  } finally {
    await house.close();
  }
});
