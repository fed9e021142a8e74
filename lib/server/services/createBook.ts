import type { BookCard, NewBook } from "@/lib/contracts/books";
import type { Actor } from "../auth/session";
import { newId } from "../newId";
import { BOOK_CARD_COLUMNS, bookCard } from "./bookCard";
import type { Db } from "./memberOf";

/** Makes a book, with the person as its maker and teacher. */
export async function createBook(db: Db, actor: Actor, { title }: NewBook): Promise<BookCard> {
  const member = await db.member.create({
    data: {
      role: "teacher",
      isMaker: true,
      user: { connect: { id: actor.userId } },
      book: { create: { id: newId(), title } },
    },
    select: BOOK_CARD_COLUMNS,
  });
  return bookCard(member);
}
