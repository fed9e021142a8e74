import type { BookCard } from "@/lib/contracts/books";
import type { Role } from "@/lib/contracts/roles";

/** What {@link bookCard} reads of a member's row. */
export const BOOK_CARD_COLUMNS = {
  role: true,
  isMaker: true,
  book: { select: { id: true, title: true, _count: { select: { members: true, songs: true } } } },
} as const;

interface MemberWithBook {
  role: Role;
  isMaker: boolean;
  book: { id: string; title: string; _count: { members: number; songs: number } };
}

/** A book as one of its members sees it in a list. */
export function bookCard({ role, isMaker, book }: MemberWithBook): BookCard {
  return {
    id: book.id,
    title: book.title,
    role,
    isMaker,
    memberCount: book._count.members,
    songCount: book._count.songs,
  };
}
