import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import type { House } from "../house";
import { forgetUnused } from "../storage/blobRows";
import { requireSongOwner } from "./memberOf";

export type RemoveSongDeps = Pick<House, "db" | "jobs" | "hub" | "blobs">;

/**
 * Removes a song with everything worked out in it and everyone's takes of it; its record goes too, where no other song
 * uses the same bytes.
 * @throws {AppError} not-found for outsiders; not-allowed unless one made the book or added the song
 */
export async function removeSong(deps: RemoveSongDeps, actor: Actor, songId: string): Promise<void> {
  const { db, jobs, hub, blobs } = deps;
  await requireSongOwner(db, songId, actor.userId);
  const song = await db.song.findUnique({
    where: { id: songId },
    select: {
      recordSha256: true,
      listeningSha256: true,
      hearingRuns: { where: { state: { in: ["waiting", "running"] } }, select: { id: true } },
    },
  });
  if (!song) throw new AppError("not-found");
  for (const run of song.hearingRuns) await jobs.cancelHearing(run.id);
  const takes = await db.$transaction(async (tx) => {
    // A take that is just coming in is waited for, and one that comes later finds no song.
    await tx.$queryRaw`SELECT 1 FROM "Song" WHERE "id" = ${songId} FOR UPDATE`;
    const held = await tx.take.findMany({ where: { songId }, select: { sha256: true } });
    await tx.song.deleteMany({ where: { id: songId } });
    return held.map(({ sha256 }) => sha256);
  });
  hub.drop(songId);
  const names = [song.recordSha256, song.listeningSha256, ...takes].filter((name) => name !== null);
  await forgetUnused(db, blobs, names);
}
