import { AppError } from "../../AppError";
import type { Actor } from "../../auth/session";
import type { House } from "../../house";
import { blobBytes } from "../../storage/blobBytes";
import type { RangedBytes } from "../../storage/rangedResponse";
import { requireSongMember } from "../memberOf";
import { openPeaksOf } from "../openRecord";
import { audibleTo } from "./takeOf";

async function soundOf(db: House["db"], { userId }: Actor, songId: string, takeId: string) {
  await requireSongMember(db, songId, userId);
  const take = await db.take.findFirst({
    where: { AND: [{ id: takeId }, audibleTo(songId, userId)] },
    select: { sound: true },
  });
  if (!take) throw new AppError("not-found");
  return take.sound;
}

/**
 * A take's sound.
 * @throws {AppError} not-found for outsiders, and for all but its owner where it is not shared
 */
export async function openTake(
  { db, blobs }: Pick<House, "db" | "blobs">,
  actor: Actor,
  songId: string,
  takeId: string,
): Promise<RangedBytes> {
  return blobBytes(blobs, await soundOf(db, actor, songId, takeId));
}

/**
 * A take's waveform (lib/contracts/peaks.ts).
 * @throws {AppError} not-found as with {@link openTake}
 */
export async function openTakePeaks(
  { db }: Pick<House, "db">,
  actor: Actor,
  songId: string,
  takeId: string,
): Promise<RangedBytes> {
  return openPeaksOf(db, (await soundOf(db, actor, songId, takeId)).sha256);
}
