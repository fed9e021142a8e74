import type { BookCard } from "@/lib/contracts/books";
import type { Actor } from "../auth/session";
import { BOOK_CARD_COLUMNS, bookCard } from "./bookCard";
import type { Db } from "./memberOf";

/** The books that the person is a member of, the newest first. */
export async function listBooks(db: Db, actor: Actor): Promise<BookCard[]> {
  const members = await db.member.findMany({
    where: { userId: actor.userId },
    orderBy: [{ book: { createdAt: "desc" } }, { bookId: "asc" }],
    select: BOOK_CARD_COLUMNS,
  });
  return members.map(bookCard);
}
