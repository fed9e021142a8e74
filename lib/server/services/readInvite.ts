import type { InviteOffer } from "@/lib/contracts/books";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { hashToken, stillOpen } from "./inviteRow";
import type { Db } from "./memberOf";

/**
 * What a link offers to whoever holds it. `actor` shows that only people who are signed in are told.
 * @throws {AppError} invite-over: used up, run out, taken back or never made, all alike
 */
export async function readInvite(db: Db, _actor: Actor, token: string): Promise<InviteOffer> {
  const invite = await db.invite.findFirst({
    where: { tokenHash: hashToken(token), ...stillOpen(new Date()) },
    select: { role: true, book: { select: { title: true } }, madeBy: { select: { name: true } } },
  });
  if (!invite) throw new AppError("invite-over");
  return { bookTitle: invite.book.title, role: invite.role, madeByName: invite.madeBy.name };
}
