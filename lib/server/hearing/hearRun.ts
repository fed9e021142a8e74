import type { Logger } from "pino";
import { writeHearing } from "@/lib/document/commands/writeHearing";
import { MACHINE } from "@/lib/document/records/Stamp";
import type { Hearing } from "@/lib/hearing/Hearing";
import { Prisma, type PrismaClient } from "../db/generated/client";
import type { Hub } from "../house";
import type { BlobStore } from "../storage/BlobStore";
import { findEarCopy, keepEarCopy } from "../storage/earCopyRows";
import { hearInWorker } from "./hearInWorker";
import { ProgressTeller } from "./progressTeller";
import { RUN_COLUMNS, runStatus } from "./runStatus";
import { runFraction } from "./runWeights";

export interface HearRunDeps {
  db: PrismaClient;
  hub: Hub;
  blobs: BlobStore;
  log: Logger;
  config: { maxDurationSec: number; ffmpeg: string | null };
  /** Hears a record; a thread of its own unless told otherwise. */
  hear?: typeof hearInWorker;
}

/** Decoding the longest record takes seconds. */
const DECODE_LIMIT_SEC = 180;

/** The shared song would not take what was heard. */
export class HearingRefused extends Error {}

/** Tells everyone on the song's page what the run's row says now. */
export async function announceRun(
  { db, hub }: Pick<HearRunDeps, "db" | "hub">,
  runId: string,
): Promise<void> {
  const run = await db.hearingRun.findUnique({
    where: { id: runId },
    select: { ...RUN_COLUMNS, songId: true },
  });
  if (run) hub.announceHearing(run.songId, runStatus(run));
}

/**
 * One run from its row to pencil in the shared song. It may be begun again at any point: the answer is stored
 * before it is written into the song, and writing the same answer twice changes nothing.
 * @param signal ends the run; the promise then rejects with the signal's reason
 * @throws whatever ended it; the row is then left as it was
 */
export async function hearRun(deps: HearRunDeps, runId: string, signal: AbortSignal): Promise<void> {
  const { db } = deps;
  const run = await db.hearingRun.findUnique({
    where: { id: runId },
    include: { song: { select: { recordSha256: true } } },
  });
  if (!run || (run.state !== "waiting" && run.state !== "running")) return;
  const stored = storedHearing(run.result);
  // Cancelled in between: there is nothing to do.
  const begun = await db.hearingRun.updateMany({
    where: { id: runId, state: { in: ["waiting", "running"] } },
    data: {
      state: "running",
      startedAt: run.startedAt ?? new Date(),
      finishedAt: null,
      errorCode: null,
      ...(stored === null ? { result: Prisma.DbNull } : {}),
    },
  });
  if (begun.count === 0) return;
  await announceRun(deps, runId);

  let hearing = stored;
  if (hearing === null) {
    hearing = await hearRecord(deps, run, signal);
    signal.throwIfAborted();
    // From here on the run can no longer be cancelled; whichever comes first wins.
    const kept = await db.hearingRun.updateMany({
      where: { id: runId, state: "running", result: { equals: Prisma.DbNull } },
      data: { result: hearing as unknown as Prisma.InputJsonValue, version: hearing.version, fraction: 1 },
    });
    if (kept.count === 0) return;
  }
  await pencil(deps, run.songId, hearing, runId);
  await db.hearingRun.updateMany({
    where: { id: runId, state: "running" },
    data: { state: "done", step: null, fraction: 1, finishedAt: new Date() },
  });
  await announceRun(deps, runId);
}

/** The answer of an earlier try; null where there is none, or an older Liftbook left it, which heard less. */
function storedHearing(result: unknown): Hearing | null {
  const known = ["homes", "chords", "bass", "sections", "notes"] satisfies (keyof Hearing)[];
  const isWhole =
    typeof result === "object" && result !== null && known.every((name) => Object.hasOwn(result, name));
  return isWhole ? (result as Hearing) : null;
}

async function hearRecord(
  deps: HearRunDeps,
  run: { id: string; songId: string; song: { recordSha256: string } },
  signal: AbortSignal,
): Promise<Hearing> {
  const { db, hub, blobs, log, config } = deps;
  const sha256 = run.song.recordSha256;
  const teller = new ProgressTeller(
    (status) => hub.announceHearing(run.songId, status),
    async (step, fraction) => {
      await db.hearingRun
        .updateMany({ where: { id: run.id, state: "running" }, data: { step, fraction } })
        .catch((err) => log.warn({ err, runId: run.id }, "a run's progress was not stored"));
    },
  );
  const order = {
    path: await blobs.pathOf(sha256),
    maxDurationSec: config.maxDurationSec,
    timeLimitSec: DECODE_LIMIT_SEC,
    ffmpeg: config.ffmpeg,
    peaksWanted: (await db.peaks.count({ where: { sha256 } })) === 0,
    earCopyPath: (await findEarCopy(db, blobs, sha256)) ? null : blobs.scratchPath(".ear"),
  };
  try {
    return await (deps.hear ?? hearInWorker)(
      order,
      {
        progress: (step, fraction) => {
          if (!signal.aborted) teller.progress(run.id, step, runFraction(step, fraction));
        },
        peaks: async (data) => {
          await db.peaks.upsert({
            where: { sha256 },
            create: { sha256, data: new Uint8Array(data) },
            update: {},
          });
        },
        earCopy: async () => {
          if (order.earCopyPath === null) return;
          // It is made anew when it is asked for, so that no hearing fails for it.
          await keepEarCopy(db, blobs, sha256, order.earCopyPath).catch((err) =>
            log.warn({ err, runId: run.id }, "a copy for the ear was not kept"),
          );
        },
      },
      signal,
    );
  } finally {
    if (order.earCopyPath) await blobs.discard({ path: order.earCopyPath });
    await teller.settled();
  }
}

async function pencil(deps: HearRunDeps, songId: string, hearing: Hearing, runId: string): Promise<void> {
  const written = await deps.hub.edit(songId, (doc) =>
    writeHearing({ doc, nowMs: Date.now(), origin: MACHINE }, hearing, runId),
  );
  if (!written.ok) throw new HearingRefused(`the shared song refused the hearing: ${written.reason}`);
}
