import type { Take } from "@/lib/contracts/takes";
import type { Actor } from "../../auth/session";
import { type Db, requireSongMember } from "../memberOf";
import { audibleTo } from "./takeOf";
import { TAKE_COLUMNS, toTake } from "./takeRow";

/**
 * The takes of a song that the person may hear, the latest first: all of one's own, and those that members share.
 * @throws {AppError} not-found for outsiders, as if there were no such song
 */
export async function listTakes(db: Db, { userId }: Actor, songId: string): Promise<Take[]> {
  await requireSongMember(db, songId, userId);
  const rows = await db.take.findMany({
    where: audibleTo(songId, userId),
    orderBy: [{ madeAt: "desc" }, { id: "asc" }],
    select: TAKE_COLUMNS,
  });
  return rows.map((row) => toTake(row, userId));
}
