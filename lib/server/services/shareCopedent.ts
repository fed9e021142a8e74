import type { Actor } from "../auth/session";
import { requireOwnCopedent } from "./copedentOf";
import { type Db, requireWriter } from "./memberOf";

/**
 * Lets the members of a book see the person's own copedent.
 * @throws {AppError} not-found, not-yours; not-allowed for listeners of the book
 */
export async function shareCopedent(
  db: Db,
  { userId }: Actor,
  copedentId: string,
  bookId: string,
): Promise<void> {
  await requireOwnCopedent(db, copedentId, userId);
  await requireWriter(db, bookId, userId);
  await db.copedentShare.upsert({
    where: { copedentId_bookId: { copedentId, bookId } },
    create: { copedentId, bookId },
    update: {},
  });
}
