import { randomUUID } from "node:crypto";
import { rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import pino from "pino";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import * as Y from "yjs";
import type { HearingStatus } from "@/lib/contracts/books";
import { readSong } from "@/lib/document/read/readSong";
import type { Hearing } from "@/lib/hearing/Hearing";
import { EarCrash, EarFault, type hearInWorker } from "@/lib/server/hearing/hearInWorker";
import type { Hub, Jobs } from "@/lib/server/house";
import { createJobs } from "@/lib/server/jobs/jobs";
import { addSong } from "@/lib/server/services/addSong";
import { startHearing } from "@/lib/server/services/startHearing";
import { openDiskBlobs } from "@/lib/server/storage/diskBlobs";
import { findEarCopy } from "@/lib/server/storage/earCopyRows";
import { makeSong } from "../songs/makeSong";
import { openSongHouse } from "../songs/songHouse";
import { toneFile } from "../songs/toneFile";
import { until } from "../sync/hubHarness";
import { openTestHouse, type TestHouse } from "../testHouse";

/** Invented: what a ear that hears nothing but one bar of G would say. */
const HEARD: Hearing = {
  version: "invented-1",
  durationSec: 2,
  tuningCents: 3,
  tuningConfidence: 0.9,
  grid: {
    beats: [0, 0.5, 1, 1.5].map((timeSec, i) => ({ timeSec, inBar: i + 1 })),
    tempoBpm: 120,
    beatsPerBar: 4,
    division: 2,
    freeStretches: [],
    beatsConfidence: 0.9,
    barsConfidence: 0.8,
  },
  homes: [{ startSec: 0, endSec: 2, tonic: "G", mode: "major", confidence: 0.7, nextBest: [] }],
  chords: [{ startSec: 0, endSec: 2, label: "G:maj", confidence: 0.6, nextBest: [] }],
  bass: [{ startSec: 0, endSec: 1.5, midi: 43, confidence: 0.5 }],
  sections: [{ startSec: 0, endSec: 2, label: "A", transposedSemitones: 0, confidence: 1 }],
  notes: [
    { startSec: 0, endSec: 1, midi: 64, confidence: 0.8, steel: 0.9, glides: [] },
    { startSec: 0, endSec: 1, midi: 43, confidence: 0.8, steel: 0.1, glides: [] },
  ],
};

type Ear = typeof hearInWorker;

let house: TestHouse;
let open: Jobs[] = [];
const docs = new Map<string, Y.Doc>();
let edits = 0;
let told: HearingStatus[] = [];
let editFault: Error | null = null;

const hub: Hub = {
  announceHearing: (_songId, status) => void told.push(status),
  async edit(songId, change) {
    if (editFault) throw editFault;
    edits++;
    const doc = docs.get(songId) ?? new Y.Doc();
    docs.set(songId, doc);
    return change(doc);
  },
  drop() {},
  async stop() {},
};

beforeAll(async () => {
  house = await openTestHouse();
});
afterEach(async () => {
  for (const jobs of open) await jobs.stop();
  open = [];
  told = [];
  edits = 0;
  editFault = null;
  docs.clear();
});
afterAll(() => house.close());

async function openJobs(hear: Ear): Promise<Jobs> {
  const jobs = await createJobs({
    config: house.config,
    db: house.db,
    hub,
    blobs: await openDiskBlobs(house.config.dataFolder),
    log: pino({ level: "silent" }),
    databaseUrl: house.config.databaseUrl!,
    hear,
  });
  open.push(jobs);
  return jobs;
}

/** A song whose record is there, and a run of it. */
async function makeRun(state: "waiting" | "running" = "waiting", result?: Hearing) {
  const blobs = await openDiskBlobs(house.config.dataFolder);
  async function* bytes(): AsyncGenerator<Uint8Array> {
    yield Buffer.from(randomUUID());
  }
  const incoming = await blobs.receive(bytes(), { maxBytes: 99 });
  await blobs.commit(incoming);
  const songId = await makeSong(house.db, incoming.sha256);
  const runId = randomUUID();
  await house.db.hearingRun.create({
    data: { id: runId, songId, state, ...(result ? { result: JSON.parse(JSON.stringify(result)) } : {}) },
  });
  return { songId, runId, sha256: incoming.sha256 };
}

const stateOf = async (runId: string) =>
  (await house.db.hearingRun.findUniqueOrThrow({ where: { id: runId } })).state;

async function untilState(runId: string, state: string): Promise<void> {
  const end = Date.now() + 10_000;
  while ((await stateOf(runId)) !== state) {
    if (Date.now() > end) throw new Error(`the run is ${await stateOf(runId)}, not ${state}`);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

/** Hears until it is told to end, as a long record would make it. */
const endless: Ear = (_order, events, signal) =>
  new Promise((_resolve, reject) => {
    events.progress("beats", 0.5);
    if (signal.aborted) reject(signal.reason);
    signal.addEventListener("abort", () => reject(signal.reason), { once: true });
  });

test("a run: progress is told, peaks and answer are stored, pencil is written, and the run is done", async () => {
  const { songId, runId, sha256 } = await makeRun();
  const jobs = await openJobs(async (order, events) => {
    expect(order.peaksWanted).toBe(true);
    events.progress("decode", 0.5);
    await events.peaks(Uint8Array.of(1, 2, 3));
    await writeFile(order.earCopyPath!, "a copy");
    await events.earCopy();
    events.progress("tuning", 0);
    return HEARD;
  });
  await untilState(runId, "done");
  const run = await house.db.hearingRun.findUniqueOrThrow({ where: { id: runId } });
  expect(run).toMatchObject({ result: HEARD, version: "invented-1", fraction: 1, errorCode: null });
  const peaks = await house.db.peaks.findUniqueOrThrow({ where: { sha256 } });
  expect([...peaks.data]).toEqual([1, 2, 3]);
  const blobs = await openDiskBlobs(house.config.dataFolder);
  expect(await findEarCopy(house.db, blobs, sha256)).toMatchObject({ byteCount: "a copy".length });
  const song = readSong(docs.get(songId)!);
  expect(song.changes.map(({ label, mark }) => [label, mark])).toEqual([["G:maj", "pencil"]]);
  expect(song.notes.map(({ midi, mark }) => [midi, mark])).toEqual([[64, "pencil"]]);
  await until("done is told", () => told.at(-1)?.state === "done");
  const steps = told.map(({ state, step }) => `${state} ${step}`);
  expect(steps).toEqual(["running null", "running decode", "running tuning", "done null"]);
  const fractions = told.map(({ fraction }) => fraction);
  expect(fractions).toEqual([...fractions].sort((a, b) => a - b));
  expect(jobs).toBeDefined();
});

test("a run whose copy for the ear cannot be kept is done all the same", async () => {
  const { runId, sha256 } = await makeRun();
  let wasAsked = false;
  await openJobs(async (order, events) => {
    await rm(order.earCopyPath!, { force: true });
    await events.earCopy();
    wasAsked = true;
    return HEARD;
  });
  await untilState(runId, "done");
  expect(wasAsked).toBe(true);
  expect(await house.db.earCopy.count({ where: { recordSha256: sha256 } })).toBe(0);
});

test("startHearing in a transaction: queued only if that commits", async () => {
  let heard = 0;
  const jobs = await openJobs(async () => {
    heard++;
    return HEARD;
  });
  const { songId, runId } = await makeRun();
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
  await untilState(kept, "done");
  expect(heard).toBe(1);
});

test("cancelling ends the thread's work, and a cancelled run writes nothing", async () => {
  const { songId, runId } = await makeRun();
  const jobs = await openJobs(endless);
  await until("it runs", () => told.some(({ step }) => step === "beats"));
  await jobs.cancelHearing(runId);
  expect(await stateOf(runId)).toBe("cancelled");
  expect(told.at(-1)).toMatchObject({ runId, state: "cancelled" });
  expect(edits).toBe(0);
  expect(docs.has(songId)).toBe(false);
});

test("a run cancelled while it waits is never heard", async () => {
  const first = await makeRun();
  const jobs = await openJobs(endless);
  const runs = (id: string) => told.some(({ runId, step }) => runId === id && step === "beats");
  await until("the first runs", () => runs(first.runId));
  const second = await makeRun();
  await jobs.startHearing(second.runId, second.songId);
  await jobs.cancelHearing(second.runId);
  await jobs.cancelHearing(first.runId);
  const third = await makeRun();
  await jobs.startHearing(third.runId, third.songId);
  await until("the third runs", () => runs(third.runId));
  expect(told.filter(({ runId }) => runId === second.runId).map(({ state }) => state)).toEqual(["cancelled"]);
});

test("taken up again: a run that an earlier process left running, and one without a job", async () => {
  const { runId } = await makeRun();
  const first = await openJobs(endless);
  await until("it runs", () => told.some(({ step }) => step === "beats"));
  // The first process is killed: nothing more is heard of it, and its job stays as it is.
  open = [];
  const orphan = await makeRun("running");
  await openJobs(async () => HEARD);
  await untilState(runId, "done");
  await untilState(orphan.runId, "done");
  await first.stop();
});

test("stopping leaves the run for the next start, however often", async () => {
  const { runId } = await makeRun();
  for (let i = 0; i < 5; i++) {
    told = [];
    const jobs = await openJobs(endless);
    await until("it runs", () => told.some((one) => one.runId === runId && one.step === "beats"));
    await jobs.stop();
    open = [];
    expect(["waiting", "running"]).toContain(await stateOf(runId));
  }
  await openJobs(async () => HEARD);
  await untilState(runId, "done");
});

test.each([
  ["", HEARD],
  ["of a house without a learned ear ", { ...HEARD, notes: null }],
])("an answer %sthat is stored already is only written into the song", async (_, stored) => {
  const { songId, runId } = await makeRun("running", stored);
  let heard = 0;
  await openJobs(async () => {
    heard++;
    return HEARD;
  });
  await untilState(runId, "done");
  expect(heard).toBe(0);
  expect(readSong(docs.get(songId)!).changes).toHaveLength(1);
});

test.each([
  ["bass line and sections", ["bass", "sections", "notes"]],
  ["notes", ["notes"]],
])(
  "an answer that an older Liftbook left, without %s, is not written: the record is heard anew",
  async (_, lacks) => {
    const older = Object.fromEntries(Object.entries(HEARD).filter(([name]) => !lacks.includes(name)));
    const { songId, runId } = await makeRun("running", older as unknown as Hearing);
    let heard = 0;
    await openJobs(async () => {
      heard++;
      return HEARD;
    });
    await untilState(runId, "done");
    expect(heard).toBe(1);
    const run = await house.db.hearingRun.findUniqueOrThrow({ where: { id: runId } });
    expect(run.result).toEqual(HEARD);
    expect(readSong(docs.get(songId)!).bass).toHaveLength(1);
    expect(readSong(docs.get(songId)!).notes).toHaveLength(1);
  },
);

test("a song that cannot be written: the run fails with words, and its answer stays stored", async () => {
  const { songId, runId } = await makeRun();
  editFault = new Error("the database is away");
  const jobs = await openJobs(async () => HEARD);
  await untilState(runId, "failed");
  await jobs.stop();
  open = [];
  const run = await house.db.hearingRun.findUniqueOrThrow({ where: { id: runId } });
  expect(run.result).toEqual(HEARD);
  expect(docs.has(songId)).toBe(false);
});

test("a thread that breaks is tried again twice, then the run fails with words", async () => {
  const { runId } = await makeRun();
  let tries = 0;
  await openJobs(async () => {
    tries++;
    throw new EarCrash("out of memory");
  });
  await untilState(runId, "failed");
  expect(tries).toBe(3);
  await until("the failure is told", () => told.at(-1)?.state === "failed");
  expect(told.at(-1)?.message).toMatch(/^Hearing stopped with a fault\./);
});

test("a record that cannot be heard fails at once", async () => {
  const { runId } = await makeRun();
  let tries = 0;
  await openJobs(async () => {
    tries++;
    throw new EarFault("no sound");
  });
  await untilState(runId, "failed");
  expect(tries).toBe(1);
});

test("a database that is away as a try ends is waited for, and the run goes on", async () => {
  const { runId } = await makeRun();
  let tries = 0;
  let away: Promise<unknown> = Promise.resolve();
  const jobs = await openJobs(async () => {
    tries++;
    if (tries > 1) return HEARD;
    away = house.db.$executeRawUnsafe("ALTER SCHEMA pgboss RENAME TO pgboss_away");
    await away;
    throw new EarCrash("broken once");
  });
  await until("the try has ended", () => tries === 1);
  await away;
  await new Promise((resolve) => setTimeout(resolve, 200));
  await house.db.$executeRawUnsafe("ALTER SCHEMA pgboss_away RENAME TO pgboss");
  jobs.wake();
  await untilState(runId, "done");
  expect(tries).toBe(2);
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
