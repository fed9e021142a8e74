import type { Logger } from "pino";
import type { Config } from "../config/config";
import { Prisma, type PrismaClient } from "../db/generated/client";
import { EarFault, type hearInWorker } from "../hearing/hearInWorker";
import { announceRun, HearingRefused, hearRun } from "../hearing/hearRun";
import type { Hub, Jobs } from "../house";
import type { BlobStore } from "../storage/BlobStore";
import { JobQueue } from "./jobQueue";

const QUEUE = "hear";
const RETRIES = 2;

export interface JobsDeps {
  config: Pick<Config, "hearingWorkers" | "maxDurationSec" | "ffmpeg">;
  db: PrismaClient;
  hub: Hub;
  blobs: BlobStore;
  log: Logger;
  databaseUrl: string;
  /** Hears a record; a thread of its own unless told otherwise. */
  hear?: typeof hearInWorker;
}

interface HearJob {
  runId: string;
  songId: string;
}

class Cancelled extends Error {}
class Stopping extends Error {}

/**
 * Opens the queue of hearing runs and takes up what an earlier process left: a run that waited or ran goes on at
 * once, and one whose answer is stored already is only written into its song.
 */
export async function createJobs(deps: JobsDeps): Promise<Jobs> {
  const { db, log, config } = deps;
  const running = new Map<string, { abort: AbortController; ended: Promise<void> }>();
  const stopped: HearJob[] = [];
  let stopping = false;

  const queue = new JobQueue<HearJob>({
    name: QUEUE,
    databaseUrl: deps.databaseUrl,
    concurrency: config.hearingWorkers,
    retries: RETRIES,
    log,
    async handle({ data, last }) {
      const abort = new AbortController();
      const work = attempt(data, last, abort);
      const ended = work.catch(() => {}).finally(() => running.delete(data.runId));
      running.set(data.runId, { abort, ended });
      if (stopping) abort.abort(new Stopping());
      await work;
    },
  });

  async function attempt(job: HearJob, last: boolean, abort: AbortController): Promise<void> {
    try {
      await hearRun(deps, job.runId, abort.signal);
    } catch (fault) {
      const reason: unknown = abort.signal.reason;
      if (reason instanceof Cancelled) return;
      if (reason instanceof Stopping) {
        stopped.push(job);
        throw fault;
      }
      if (last || fault instanceof EarFault || fault instanceof HearingRefused) {
        log.error({ err: fault, runId: job.runId }, "a hearing run failed");
        await fail(job.runId);
        return;
      }
      throw fault;
    }
  }

  async function fail(runId: string): Promise<void> {
    await db.hearingRun.updateMany({
      where: { id: runId, state: { in: ["waiting", "running"] } },
      data: { state: "failed", errorCode: "hearing-failed", finishedAt: new Date() },
    });
    await announceRun(deps, runId);
  }

  await queue.open();
  const left = await db.hearingRun.findMany({
    where: { state: { in: ["waiting", "running"] } },
    orderBy: { createdAt: "asc" },
    select: { id: true, songId: true },
  });
  for (const { id, songId } of left) {
    if (!(await queue.takeUp(id, { runId: id, songId }))) await fail(id);
  }
  queue.begin();

  return {
    async startHearing(runId, songId, tx) {
      await queue.add(runId, { runId, songId }, tx);
      if (!tx) queue.wake();
    },

    wake: () => queue.wake(),

    async cancelHearing(runId) {
      const cancelled = await db.hearingRun.updateMany({
        where: { id: runId, state: { in: ["waiting", "running"] }, result: { equals: Prisma.DbNull } },
        data: { state: "cancelled", finishedAt: new Date() },
      });
      if (cancelled.count === 0) return;
      const run = running.get(runId);
      run?.abort.abort(new Cancelled());
      await announceRun(deps, runId);
      await run?.ended;
      await queue.remove(runId);
    },

    async stop() {
      stopping = true;
      for (const { abort } of running.values()) abort.abort(new Stopping());
      await queue.drain();
      for (const job of stopped) {
        // Put in anew, so that stopping the server uses up none of the job's tries.
        await queue.remove(job.runId);
        await queue.add(job.runId, job);
      }
      await queue.close();
    },
  };
}
