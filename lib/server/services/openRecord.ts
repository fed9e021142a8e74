import { Readable } from "node:stream";
import { PEAKS_MEDIA_TYPE } from "@/lib/contracts/peaks";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import type { House } from "../house";
import type { RangedBytes } from "../storage/rangedResponse";
import { requireSongMember } from "./memberOf";
import { recordOf } from "./recordOf";

export type OpenRecordDeps = Pick<House, "db" | "blobs">;

/**
 * A song's record as browsers play it: its listening copy where it has one.
 * @throws {AppError} not-found for outsiders, as if there were no such song
 */
export async function openRecord(
  { db, blobs }: OpenRecordDeps,
  actor: Actor,
  songId: string,
): Promise<RangedBytes> {
  await requireSongMember(db, songId, actor.userId);
  const song = await db.song.findUnique({ where: { id: songId }, select: { record: true, listening: true } });
  if (!song) throw new AppError("not-found");
  const { sha256, mediaType, byteCount } = song.listening ?? song.record;
  return {
    etag: `"${sha256}"`,
    byteCount: Number(byteCount),
    mediaType,
    open: (start, end) => blobs.openRange(sha256, start, end),
  };
}

/**
 * A song's waveform (lib/contracts/peaks.ts).
 * @throws {AppError} not-found for outsiders, and until it is made
 */
export async function openPeaks(
  { db }: Pick<House, "db">,
  actor: Actor,
  songId: string,
): Promise<RangedBytes> {
  const peaks = await db.peaks.findUnique({ where: { sha256: await recordOf(db, actor, songId) } });
  if (!peaks) throw new AppError("not-found");
  const data = Buffer.from(peaks.data);
  return {
    etag: `"peaks-${peaks.sha256}"`,
    byteCount: data.byteLength,
    mediaType: PEAKS_MEDIA_TYPE,
    open: (start, end) => Readable.from([data.subarray(start, end + 1)], { objectMode: false }),
  };
}
