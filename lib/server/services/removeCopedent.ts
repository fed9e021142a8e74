import type { Actor } from "../auth/session";
import { requireOwnCopedent } from "./copedentOf";
import type { Db } from "./memberOf";

/**
 * Removes the person's own copedent, from the books it is shared in too. Parts that were written on it keep their
 * copy of its chart.
 * @throws {AppError} not-found or not-yours
 */
export async function removeCopedent(db: Db, { userId }: Actor, copedentId: string): Promise<void> {
  await requireOwnCopedent(db, copedentId, userId);
  await db.copedent.deleteMany({ where: { id: copedentId } });
}
