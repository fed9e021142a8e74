import { randomUUID } from "node:crypto";
import type { HearingStatus } from "@/lib/contracts/books";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { RUN_COLUMNS, runStatus } from "../hearing/runStatus";
import type { House } from "../house";
import { requireSongWriter } from "./memberOf";

export type StartHearingDeps = Pick<House, "db" | "jobs" | "hub">;

/**
 * Has a song heard again.
 * @throws {AppError} not-found for outsiders, not-allowed for listeners, already-hearing
 */
export async function startHearing(
  deps: StartHearingDeps,
  actor: Actor,
  songId: string,
): Promise<HearingStatus> {
  const { db, jobs, hub } = deps;
  const runId = randomUUID();
  const status = await db.$transaction(async (tx) => {
    await requireSongWriter(tx, songId, actor.userId);
    // Two who ask at once: the second waits here, and is told.
    await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`hearing:${songId}`}, 0))`;
    const busy = await tx.hearingRun.count({ where: { songId, state: { in: ["waiting", "running"] } } });
    if (busy > 0) throw new AppError("already-hearing");
    const run = await tx.hearingRun.create({ data: { id: runId, songId }, select: RUN_COLUMNS });
    await jobs.startHearing(runId, songId, tx);
    return runStatus(run);
  });
  hub.announceHearing(songId, status);
  jobs.wake();
  return status;
}
