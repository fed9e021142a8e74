import type { HearingStatus } from "@/lib/contracts/books";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { latestHearing } from "../hearing/runStatus";
import type { House } from "../house";
import { requireSongWriter } from "./memberOf";

export type CancelHearingDeps = Pick<House, "db" | "jobs">;

/**
 * Stops the hearing of a song; what was heard so far is given up. A run that is over already stays as it is.
 * @throws {AppError} not-found for outsiders and for songs never heard, not-allowed for listeners
 */
export async function cancelHearing(
  { db, jobs }: CancelHearingDeps,
  actor: Actor,
  songId: string,
): Promise<HearingStatus> {
  await requireSongWriter(db, songId, actor.userId);
  const runs = await db.hearingRun.findMany({
    where: { songId, state: { in: ["waiting", "running"] } },
    select: { id: true },
  });
  for (const run of runs) await jobs.cancelHearing(run.id);
  const status = await latestHearing(db, songId);
  if (!status) throw new AppError("not-found");
  return status;
}
