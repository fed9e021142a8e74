import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { type Db, requireSongMember } from "./memberOf";

/**
 * The name of a song's record.
 * @throws {AppError} not-found for outsiders, as if there were no such song
 */
export async function recordOf(db: Db, actor: Actor, songId: string): Promise<string> {
  await requireSongMember(db, songId, actor.userId);
  const song = await db.song.findUnique({ where: { id: songId }, select: { recordSha256: true } });
  if (!song) throw new AppError("not-found");
  return song.recordSha256;
}
