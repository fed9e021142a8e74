import type { CopedentPage } from "@/lib/contracts/copedents";
import { WRITING_ROLES } from "@/lib/contracts/roles";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { visibleTo } from "./copedentOf";
import { copedentColumns, toCopedentRow } from "./copedentRow";
import type { Db } from "./memberOf";

/**
 * One copedent, with what its owner can do with it.
 * @throws {AppError} not-found for whoever may not look at it, as if there were no such copedent
 */
export async function readCopedent(db: Db, { userId }: Actor, copedentId: string): Promise<CopedentPage> {
  const found = await db.copedent.findFirst({
    where: { id: copedentId, ...visibleTo(userId) },
    select: copedentColumns(userId),
  });
  if (!found) throw new AppError("not-found");
  const row = toCopedentRow(found, userId);
  const writing = row.isOwn
    ? await db.member.findMany({
        where: { userId, role: { in: [...WRITING_ROLES] } },
        orderBy: [{ book: { title: "asc" } }, { bookId: "asc" }],
        select: { bookId: true, book: { select: { title: true } } },
      })
    : [];
  return {
    ...row,
    isUsual: (await db.usualCopedent.count({ where: { userId, copedentId } })) > 0,
    books: writing.map(({ bookId, book }) => ({ bookId, bookTitle: book.title })),
  };
}
