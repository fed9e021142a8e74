import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { type Db, requireMaker } from "./memberOf";

/**
 * Takes a link back; whoever came by it stays. Taking back twice is once.
 * @throws {AppError} not-found, not-allowed
 */
export async function revokeInvite(
  db: Db,
  actor: Actor,
  { bookId, inviteId }: { bookId: string; inviteId: string },
): Promise<void> {
  await requireMaker(db, bookId, actor.userId);
  const invite = await db.invite.findFirst({ where: { id: inviteId, bookId }, select: { id: true } });
  if (!invite) throw new AppError("not-found");
  await db.invite.updateMany({ where: { id: inviteId, revokedAt: null }, data: { revokedAt: new Date() } });
}
