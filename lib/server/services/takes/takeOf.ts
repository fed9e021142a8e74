import { AppError } from "../../AppError";
import type { Actor } from "../../auth/session";
import type { Prisma } from "../../db/generated/client";
import { type Db, requireSongMember } from "../memberOf";

/** Takes of a song that a person may hear: one's own, and those that members share. */
export function audibleTo(songId: string, userId: string): Prisma.TakeWhereInput {
  return {
    songId,
    OR: [
      { ownerId: userId },
      { isShared: true, owner: { members: { some: { book: { songs: { some: { id: songId } } } } } } },
    ],
  };
}

/**
 * One of one's own takes.
 * @throws {AppError} not-found for outsiders, for other people's takes whether shared or not, and where there is none
 */
export async function requireOwnTake(
  db: Db,
  { userId }: Actor,
  songId: string,
  takeId: string,
): Promise<{ sha256: string; isShared: boolean }> {
  await requireSongMember(db, songId, userId);
  const take = await db.take.findFirst({
    where: { id: takeId, songId, ownerId: userId },
    select: { sha256: true, isShared: true },
  });
  if (!take) throw new AppError("not-found");
  return take;
}
