import { api } from "@/lib/contracts/api";
import { roleSchema, type SongPage } from "@/lib/contracts/books";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { RUN_COLUMNS, runStatus } from "../hearing/runStatus";
import { type Db, requireSongMember } from "./memberOf";

/**
 * What the page of a song starts from.
 * @throws {AppError} not-found for outsiders, as if there were no such song
 */
export async function readSong(db: Db, actor: Actor, songId: string): Promise<SongPage> {
  const { role } = await requireSongMember(db, songId, actor.userId);
  const song = await db.song.findUnique({
    where: { id: songId },
    select: {
      title: true,
      durationSec: true,
      sampleRateHz: true,
      channelCount: true,
      book: {
        select: {
          id: true,
          title: true,
          members: {
            orderBy: [{ joinedAt: "asc" }, { userId: "asc" }],
            select: { userId: true, role: true, isMaker: true, user: { select: { name: true } } },
          },
        },
      },
      hearingRuns: { orderBy: { createdAt: "desc" }, take: 1, select: RUN_COLUMNS },
    },
  });
  if (!song) throw new AppError("not-found");
  const [run] = song.hearingRuns;
  return {
    id: songId,
    title: song.title,
    bookId: song.book.id,
    bookTitle: song.book.title,
    role: roleSchema.parse(role),
    durationSec: song.durationSec,
    sampleRateHz: song.sampleRateHz,
    channelCount: song.channelCount,
    recordUrl: api.record(songId),
    peaksUrl: api.peaks(songId),
    me: { id: actor.userId, name: actor.name },
    members: song.book.members.map(({ user, ...member }) => ({ ...member, name: user.name })),
    hearing: run ? runStatus(run) : null,
  };
}
