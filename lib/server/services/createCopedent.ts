import type { CopedentRow, NewCopedent } from "@/lib/contracts/copedents";
import type { Actor } from "../auth/session";
import { newId } from "../newId";
import { chartColumns } from "./chartColumns";
import { copedentColumns, toCopedentRow } from "./copedentRow";
import type { Db } from "./memberOf";

/** Keeps a new copedent for that person, seen by nobody else. */
export async function createCopedent(
  db: Db,
  { userId }: Actor,
  { chart }: NewCopedent,
): Promise<CopedentRow> {
  const row = await db.copedent.create({
    data: { id: newId(), ownerId: userId, ...chartColumns(chart) },
    select: copedentColumns(userId),
  });
  return toCopedentRow(row, userId);
}
