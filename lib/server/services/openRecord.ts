import { Readable } from "node:stream";
import { PEAKS_MEDIA_TYPE } from "@/lib/contracts/peaks";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import type { House } from "../house";
import { blobBytes } from "../storage/blobBytes";
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
  return blobBytes(blobs, song.listening ?? song.record);
}

/**
 * A song's waveform (lib/contracts/peaks.ts), of which pages fetch what they draw.
 * @throws {AppError} not-found for outsiders, and until it is made
 */
export async function openPeaks(
  { db }: Pick<House, "db">,
  actor: Actor,
  songId: string,
): Promise<RangedBytes> {
  return openPeaksOf(db, await recordOf(db, actor, songId));
}

/**
 * The waveform of kept bytes.
 * @throws {AppError} not-found until it is made
 */
export async function openPeaksOf(db: House["db"], sha256: string): Promise<RangedBytes> {
  const [peaks] = await db.$queryRaw<
    { byteCount: number }[]
  >`SELECT length("data") AS "byteCount" FROM "Peaks" WHERE "sha256" = ${sha256}`;
  if (!peaks) throw new AppError("not-found");
  return {
    etag: `"peaks-${sha256}"`,
    byteCount: peaks.byteCount,
    mediaType: PEAKS_MEDIA_TYPE,
    open: (start, end) => Readable.from(peakBytes(db, sha256, start, end), { objectMode: false }),
  };
}

/** Bytes `start` to `end`, both included, cut out by the database: a page asks for small stretches of them. */
async function* peakBytes(db: House["db"], sha256: string, start: number, end: number) {
  const [row] = await db.$queryRaw<
    { part: Uint8Array }[]
  >`SELECT substring("data" FROM ${start + 1}::int FOR ${end - start + 1}::int) AS "part" FROM "Peaks" WHERE "sha256" = ${sha256}`;
  if (row) yield Buffer.from(row.part);
}
