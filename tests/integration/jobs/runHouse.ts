import { randomUUID } from "node:crypto";
import pino from "pino";
import * as Y from "yjs";
import type { HearingStatus } from "@/lib/contracts/books";
import type { Hearing } from "@/lib/hearing/Hearing";
import type { hearInWorker } from "@/lib/server/hearing/hearInWorker";
import type { Hub, Jobs } from "@/lib/server/house";
import { createJobs } from "@/lib/server/jobs/jobs";
import { openDiskBlobs } from "@/lib/server/storage/diskBlobs";
import { makeSong } from "../songs/makeSong";
import { openTestHouse, type TestHouse } from "../testHouse";

type Ear = typeof hearInWorker;

/** Invented: what a ear that hears nothing but one bar of G would say. */
export const HEARD: Hearing = {
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

/** Hears until it is told to end, as a long record would make it. */
export const endless: Ear = (_order, events, signal) =>
  new Promise((_resolve, reject) => {
    events.progress("beats", 0.5);
    if (signal.aborted) reject(signal.reason);
    signal.addEventListener("abort", () => reject(signal.reason), { once: true });
  });

/** A house whose runs a test follows: what is told of them, and what they write into songs. */
export class RunHouse {
  readonly docs = new Map<string, Y.Doc>();
  edits = 0;
  told: HearingStatus[] = [];
  /** What every edit of a song meets, if any. */
  editFault: Error | null = null;
  private open: Jobs[] = [];

  private constructor(private readonly house: TestHouse) {}

  static async start(): Promise<RunHouse> {
    return new RunHouse(await openTestHouse());
  }

  get db() {
    return this.house.db;
  }

  private readonly hub: Hub = {
    announceHearing: (_songId, status) => void this.told.push(status),
    announceTakes: () => {},
    edit: async (songId, change) => {
      if (this.editFault) throw this.editFault;
      this.edits++;
      const doc = this.docs.get(songId) ?? new Y.Doc();
      this.docs.set(songId, doc);
      return change(doc);
    },
    drop() {},
    async stop() {},
  };

  openBlobs() {
    return openDiskBlobs(this.house.config.dataFolder);
  }

  /** Stopped by `clear`, unless they are left first. */
  async openJobs(hear: Ear): Promise<Jobs> {
    const jobs = await createJobs({
      config: this.house.config,
      db: this.db,
      hub: this.hub,
      blobs: await this.openBlobs(),
      log: pino({ level: "silent" }),
      databaseUrl: this.house.config.databaseUrl!,
      hear,
    });
    this.open.push(jobs);
    return jobs;
  }

  leaveJobs(): void {
    this.open = [];
  }

  /** A song whose record is there, and a run of it. */
  async makeRun(state: "waiting" | "running" = "waiting", result?: Hearing) {
    const blobs = await this.openBlobs();
    async function* bytes(): AsyncGenerator<Uint8Array> {
      yield Buffer.from(randomUUID());
    }
    const incoming = await blobs.receive(bytes(), { maxBytes: 99 });
    await blobs.commit(incoming);
    const songId = await makeSong(this.db, incoming.sha256);
    const runId = randomUUID();
    await this.db.hearingRun.create({
      data: { id: runId, songId, state, ...(result ? { result: JSON.parse(JSON.stringify(result)) } : {}) },
    });
    return { songId, runId, sha256: incoming.sha256 };
  }

  async stateOf(runId: string): Promise<string> {
    return (await this.db.hearingRun.findUniqueOrThrow({ where: { id: runId } })).state;
  }

  async untilState(runId: string, state: string): Promise<void> {
    const end = Date.now() + 10_000;
    while ((await this.stateOf(runId)) !== state) {
      if (Date.now() > end) throw new Error(`the run is ${await this.stateOf(runId)}, not ${state}`);
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
  }

  /** As it was at first, but for the database. */
  async clear(): Promise<void> {
    for (const jobs of this.open) await jobs.stop();
    this.open = [];
    this.told = [];
    this.edits = 0;
    this.editFault = null;
    this.docs.clear();
  }

  close(): Promise<void> {
    return this.house.close();
  }
}
