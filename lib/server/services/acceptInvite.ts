import type { Role } from "@/lib/contracts/roles";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import type { PrismaClient } from "../db/generated/client";
import { hashToken, stillOpen } from "./inviteRow";

/** Roles that stand below each: whoever holds one of them is raised by an invitation. */
const LOWER: Readonly<Record<Role, Role[]>> = {
  teacher: ["student", "listener"],
  student: ["listener"],
  listener: [],
};

/**
 * Makes the person a member of the link's book. Who is a member already keeps the higher of both roles, and the link
 * loses no use where nothing changes. However many accept at once, a link gives no more places than it has uses.
 * @throws {AppError} invite-over: used up, run out, taken back or never made, all alike
 */
export async function acceptInvite(
  db: PrismaClient,
  actor: Actor,
  token: string,
): Promise<{ bookId: string }> {
  const tokenHash = hashToken(token);
  return db.$transaction(async (tx) => {
    const now = new Date();
    const invite = await tx.invite.findFirst({
      where: { tokenHash, ...stillOpen(now) },
      select: { id: true, bookId: true, role: true },
    });
    if (!invite) throw new AppError("invite-over");
    const { id, bookId, role } = invite;
    const { userId } = actor;
    const joined = await tx.member.createMany({ data: { bookId, userId, role }, skipDuplicates: true });
    const raised = await tx.member.updateMany({
      where: { bookId, userId, role: { in: LOWER[role] } },
      data: { role },
    });
    if (joined.count + raised.count === 0) return { bookId };
    // The row is locked by the update and its condition looked at again, so the last use is given once; where it
    // was gone, throwing undoes the membership too.
    const used = await tx.invite.updateMany({
      where: { id, ...stillOpen(now) },
      data: { usesLeft: { decrement: 1 } },
    });
    if (used.count === 0) throw new AppError("invite-over");
    return { bookId };
  });
}
