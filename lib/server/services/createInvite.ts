import { randomBytes } from "node:crypto";
import { pages } from "@/lib/contracts/api";
import type { MadeInvite, NewInvite } from "@/lib/contracts/books";
import type { Actor } from "../auth/session";
import { newId } from "../newId";
import { hashToken, INVITE_COLUMNS, inviteRow } from "./inviteRow";
import { type Db, requireMaker } from "./memberOf";

export interface CreateInviteInput extends NewInvite {
  bookId: string;
  /** Origin of this server, for the link. */
  origin: string;
}

const DAY_MS = 24 * 60 * 60 * 1000;

/**
 * Makes a link into a book. Its token (192 random bits) is in the answer only; the database keeps its hash.
 * @throws {AppError} not-found for outsiders, not-allowed for members who did not make the book
 */
export async function createInvite(db: Db, actor: Actor, input: CreateInviteInput): Promise<MadeInvite> {
  await requireMaker(db, input.bookId, actor.userId);
  const token = randomBytes(24).toString("base64url");
  const invite = await db.invite.create({
    data: {
      id: newId(),
      bookId: input.bookId,
      madeById: actor.userId,
      tokenHash: hashToken(token),
      role: input.role,
      usesLeft: input.uses,
      expiresAt: new Date(Date.now() + input.days * DAY_MS),
    },
    select: INVITE_COLUMNS,
  });
  return { ...inviteRow(invite), url: `${input.origin}${pages.invite(token)}` };
}
