import type { Actor } from "../auth/session";
import { requireOwnCopedent } from "./copedentOf";
import { type Db, requireMember } from "./memberOf";

/**
 * Hides a copedent from a book again; parts that were written on it keep their copy. Its owner may, and whoever
 * made the book.
 * @throws {AppError} not-found, not-yours
 */
export async function unshareCopedent(
  db: Db,
  { userId }: Actor,
  copedentId: string,
  bookId: string,
): Promise<void> {
  const { isMaker } = await requireMember(db, bookId, userId);
  if (!isMaker) await requireOwnCopedent(db, copedentId, userId);
  await db.copedentShare.deleteMany({ where: { copedentId, bookId } });
}
