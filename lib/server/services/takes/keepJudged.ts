import type { KeptJudged } from "@/lib/contracts/takeSchemas";
import type { Take } from "@/lib/contracts/takes";
import type { Actor } from "../../auth/session";
import type { House } from "../../house";
import { requireOwnTake } from "./takeOf";
import { TAKE_COLUMNS, toTake } from "./takeRow";

/**
 * Keeps what the owner's browser found when it held the take against the part, in place of what it found before.
 * @throws {AppError} not-found
 */
export async function keepJudged(
  { db, hub }: Pick<House, "db" | "hub">,
  actor: Actor,
  songId: string,
  takeId: string,
  judged: KeptJudged,
): Promise<Take> {
  const { isShared } = await requireOwnTake(db, actor, songId, takeId);
  const row = await db.take.update({ where: { id: takeId }, data: { judged }, select: TAKE_COLUMNS });
  hub.announceTakes(songId, isShared ? undefined : actor.userId);
  return toTake(row, actor.userId);
}
