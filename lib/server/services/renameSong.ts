import type { SongRow } from "@/lib/contracts/books";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { type Db, requireSongWriter } from "./memberOf";
import { SONG_ROW, toSongRow } from "./songRow";

/** @throws {AppError} not-found for outsiders, not-allowed for listeners */
export async function renameSong(db: Db, actor: Actor, songId: string, title: string): Promise<SongRow> {
  await requireSongWriter(db, songId, actor.userId);
  // Not `update`, which fails where the song was removed in between.
  await db.song.updateMany({ where: { id: songId }, data: { title } });
  const song = await db.song.findUnique({ where: { id: songId }, select: SONG_ROW });
  if (!song) throw new AppError("not-found");
  return toSongRow(song);
}
