import { type Role, WRITING_ROLES } from "@/lib/contracts/roles";
import { AppError } from "../AppError";
import type { Prisma } from "../db/generated/client";

/** The client itself or a transaction of it. */
export type Db = Prisma.TransactionClient;

export interface Membership {
  bookId: string;
  role: Role;
  isMaker: boolean;
}

const COLUMNS = { bookId: true, role: true, isMaker: true } as const;

/** The person's place in a book; null for outsiders and for books that are not there. */
export function memberOf(db: Db, bookId: string, userId: string): Promise<Membership | null> {
  return db.member.findUnique({ where: { bookId_userId: { bookId, userId } }, select: COLUMNS });
}

/** The person's place in the book of a song; null for outsiders and for songs that are not there. */
export function songMember(db: Db, songId: string, userId: string): Promise<Membership | null> {
  return db.member.findFirst({
    where: { userId, book: { songs: { some: { id: songId } } } },
    select: COLUMNS,
  });
}

function required(found: Membership | null): Membership {
  if (!found) throw new AppError("not-found");
  return found;
}

function writer(found: Membership | null): Membership {
  const membership = required(found);
  if (!WRITING_ROLES.includes(membership.role)) throw new AppError("not-allowed");
  return membership;
}

/** @throws {AppError} not-found for outsiders, as if there were no such book */
export async function requireMember(db: Db, bookId: string, userId: string): Promise<Membership> {
  return required(await memberOf(db, bookId, userId));
}

/** @throws {AppError} not-found for outsiders, not-allowed for listeners */
export async function requireWriter(db: Db, bookId: string, userId: string): Promise<Membership> {
  return writer(await memberOf(db, bookId, userId));
}

/** @throws {AppError} not-found for outsiders, not-allowed for members who did not make the book */
export async function requireMaker(db: Db, bookId: string, userId: string): Promise<Membership> {
  const membership = await requireMember(db, bookId, userId);
  if (!membership.isMaker) throw new AppError("not-allowed");
  return membership;
}

/** @throws {AppError} not-found for outsiders, as if there were no such song */
export async function requireSongMember(db: Db, songId: string, userId: string): Promise<Membership> {
  return required(await songMember(db, songId, userId));
}

/** @throws {AppError} not-found for outsiders, not-allowed for listeners */
export async function requireSongWriter(db: Db, songId: string, userId: string): Promise<Membership> {
  return writer(await songMember(db, songId, userId));
}

/** @throws {AppError} not-found for outsiders, not-allowed unless one made the book or added the song */
export async function requireSongOwner(db: Db, songId: string, userId: string): Promise<Membership> {
  const membership = await requireSongMember(db, songId, userId);
  const isOwner =
    membership.isMaker || (await db.song.count({ where: { id: songId, addedById: userId } })) > 0;
  if (!isOwner) throw new AppError("not-allowed");
  return membership;
}
