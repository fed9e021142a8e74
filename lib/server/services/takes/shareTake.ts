import type { Take } from "@/lib/contracts/takes";
import type { Actor } from "../../auth/session";
import type { House } from "../../house";
import { requireOwnTake } from "./takeOf";
import { TAKE_COLUMNS, toTake } from "./takeRow";

/**
 * Lets the members of the song's book hear one of one's own takes, or keeps it to oneself again.
 * @throws {AppError} not-found
 */
export async function shareTake(
  { db, hub }: Pick<House, "db" | "hub">,
  actor: Actor,
  songId: string,
  takeId: string,
  isShared: boolean,
): Promise<Take> {
  await requireOwnTake(db, actor, songId, takeId);
  const row = await db.take.update({ where: { id: takeId }, data: { isShared }, select: TAKE_COLUMNS });
  hub.announceTakes(songId);
  return toTake(row, actor.userId);
}
