import type { HearingStatus } from "@/lib/contracts/books";
import type { Actor } from "../auth/session";
import { RUN_COLUMNS, runStatus } from "../hearing/runStatus";
import { type Db, requireMember } from "./memberOf";

/**
 * How far the machine is with each song of a book; songs never heard are left out.
 * @throws {AppError} not-found for outsiders, as if there were no such book
 */
export async function hearingStatus(
  db: Db,
  actor: Actor,
  bookId: string,
): Promise<Record<string, HearingStatus>> {
  await requireMember(db, bookId, actor.userId);
  const runs = await db.hearingRun.findMany({
    where: { song: { bookId } },
    distinct: ["songId"],
    orderBy: [{ songId: "asc" }, { createdAt: "desc" }],
    select: { ...RUN_COLUMNS, songId: true },
  });
  return Object.fromEntries(runs.map((run) => [run.songId, runStatus(run)]));
}
