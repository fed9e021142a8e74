import { AppError } from "../AppError";
import type { Prisma } from "../db/generated/client";
import type { Db } from "./memberOf";

/** Copedents that a person may look at: the person's own, and those shared in a book that the person is in. */
export function visibleTo(userId: string): Prisma.CopedentWhereInput {
  return { OR: [{ ownerId: userId }, { shares: { some: { book: { members: { some: { userId } } } } } }] };
}

/**
 * That the copedent is that person's own.
 * @throws {AppError} not-found where the person may not look at it, not-yours where it is only shared with the person
 */
export async function requireOwnCopedent(db: Db, copedentId: string, userId: string): Promise<void> {
  const found = await db.copedent.findFirst({
    where: { id: copedentId, ...visibleTo(userId) },
    select: { ownerId: true, owner: { select: { name: true } } },
  });
  if (!found) throw new AppError("not-found");
  if (found.ownerId !== userId) throw new AppError("not-yours", { owner: found.owner.name });
}
