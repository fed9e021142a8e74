import type { BookPage } from "@/lib/contracts/books";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { BOOK_CARD_COLUMNS, bookCard } from "./bookCard";
import { INVITE_COLUMNS, inviteRow, stillOpen } from "./inviteRow";
import type { Db } from "./memberOf";
import { SONG_ROW, toSongRow } from "./songRow";

/**
 * A book with its members (in the order they came), songs (newest first) and, for its maker, the invitations that
 * still work.
 * @throws {AppError} not-found for outsiders, as if there were no such book
 */
export async function readBook(db: Db, actor: Actor, bookId: string): Promise<BookPage> {
  const member = await db.member.findUnique({
    where: { bookId_userId: { bookId, userId: actor.userId } },
    select: BOOK_CARD_COLUMNS,
  });
  if (!member) throw new AppError("not-found");
  const members = await db.member.findMany({
    where: { bookId },
    orderBy: [{ joinedAt: "asc" }, { userId: "asc" }],
    select: { userId: true, role: true, isMaker: true, user: { select: { name: true } } },
  });
  const songs = await db.song.findMany({
    where: { bookId },
    orderBy: [{ createdAt: "desc" }, { id: "asc" }],
    select: SONG_ROW,
  });
  const invites = member.isMaker
    ? await db.invite.findMany({
        where: { bookId, ...stillOpen(new Date()) },
        orderBy: { createdAt: "desc" },
        select: INVITE_COLUMNS,
      })
    : [];
  return {
    ...bookCard(member),
    members: members.map(({ user, ...row }) => ({ ...row, name: user.name })),
    songs: songs.map(toSongRow),
    invites: invites.map(inviteRow),
  };
}
