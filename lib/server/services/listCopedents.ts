import type { CopedentShelf } from "@/lib/contracts/copedents";
import type { Actor } from "../auth/session";
import { copedentColumns, toCopedentRow } from "./copedentRow";
import type { Db } from "./memberOf";
import { readUsualCopedent } from "./readUsualCopedent";

/** The person's own copedents, those shared in the person's books, and which guitar is the usual one. */
export async function listCopedents(db: Db, { userId }: Actor): Promise<CopedentShelf> {
  const select = copedentColumns(userId);
  const own = await db.copedent.findMany({
    where: { ownerId: userId },
    orderBy: [{ updatedAt: "desc" }, { id: "asc" }],
    select,
  });
  const shared = await db.copedent.findMany({
    where: { ownerId: { not: userId }, shares: { some: { book: { members: { some: { userId } } } } } },
    orderBy: [{ name: "asc" }, { id: "asc" }],
    select,
  });
  return {
    own: own.map((row) => toCopedentRow(row, userId)),
    shared: shared.map((row) => toCopedentRow(row, userId)),
    usual: await readUsualCopedent(db, userId),
  };
}
