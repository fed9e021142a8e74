import type { SongRow } from "@/lib/contracts/books";
import type { Actor } from "../auth/session";
import { type Db, requireSongWriter } from "./memberOf";
import { SONG_ROW, toSongRow } from "./songRow";

/** @throws {AppError} not-found for outsiders, not-allowed for listeners */
export async function renameSong(db: Db, actor: Actor, songId: string, title: string): Promise<SongRow> {
  await requireSongWriter(db, songId, actor.userId);
  return toSongRow(await db.song.update({ where: { id: songId }, data: { title }, select: SONG_ROW }));
}
