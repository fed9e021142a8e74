import type { Actor } from "../../auth/session";
import type { House } from "../../house";
import { forgetUnused } from "../../storage/blobRows";
import { requireOwnTake } from "./takeOf";

/**
 * Removes one of one's own takes with its sound, for everyone it was shared with too.
 * @throws {AppError} not-found
 */
export async function removeTake(
  { db, blobs, hub }: Pick<House, "db" | "blobs" | "hub">,
  actor: Actor,
  songId: string,
  takeId: string,
): Promise<void> {
  const { sha256, isShared } = await requireOwnTake(db, actor, songId, takeId);
  await db.take.deleteMany({ where: { id: takeId } });
  hub.announceTakes(songId, isShared ? undefined : actor.userId);
  await forgetUnused(db, blobs, [sha256]);
}
