import { isDeepStrictEqual } from "node:util";
import type { CopedentEdit, CopedentRow } from "@/lib/contracts/copedents";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { chartColumns } from "./chartColumns";
import { requireOwnCopedent } from "./copedentOf";
import { copedentColumns, toCopedentRow } from "./copedentRow";
import type { Db } from "./memberOf";

/**
 * Replaces the chart of the person's own copedent, its name with it. Whoever sends a chart again because the answer was lost
 * is answered as the first time: what was to be written stands already.
 * @throws {AppError} not-found or not-yours; changed-elsewhere where it is no longer as it was read
 */
export async function changeCopedent(
  db: Db,
  { userId }: Actor,
  copedentId: string,
  { revision, chart }: CopedentEdit,
): Promise<CopedentRow> {
  await requireOwnCopedent(db, copedentId, userId);
  const { count } = await db.copedent.updateMany({
    where: { id: copedentId, revision },
    data: { ...chartColumns(chart), revision: { increment: 1 } },
  });
  const row = await db.copedent.findUnique({ where: { id: copedentId }, select: copedentColumns(userId) });
  if (!row) throw new AppError("not-found");
  const standsAlready = row.revision > revision && isDeepStrictEqual(row.chart, chart);
  if (count === 0 && !standsAlready) throw new AppError("changed-elsewhere");
  return toCopedentRow(row, userId);
}
