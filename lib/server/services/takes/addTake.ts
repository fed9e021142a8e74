import type { NewTake } from "@/lib/contracts/takeSchemas";
import { MAX_TAKE_BYTES, MAX_TAKE_SEC, TAKE_MEDIA_TYPE, type Take } from "@/lib/contracts/takes";
import { AppError } from "../../AppError";
import type { Actor } from "../../auth/session";
import type { House } from "../../house";
import { type Incoming, isTooManyBytes } from "../../storage/BlobStore";
import { forgetUnused, lockBlobs } from "../../storage/blobRows";
import { requireSongMember } from "../memberOf";
import { readTakeSound, type TakeSound } from "./readTakeSound";
import { TAKE_COLUMNS, toTake } from "./takeRow";

export type AddTakeDeps = Pick<House, "db" | "blobs" | "hub">;

export interface SentTake {
  id: string;
  about: NewTake;
  body: AsyncIterable<Uint8Array> | null;
  /** As announced; null where it was not. */
  byteCount: number | null;
  /** Ends the sending; nothing is kept. */
  signal?: AbortSignal;
}

const tooLong = () => new AppError("take-too-long", { limit: `${MAX_TAKE_SEC / 60} minutes` });

/**
 * Keeps a take that a member recorded, listeners too: it is private. One that is there already is answered with, so that
 * a browser which did not get the answer can send it again. What breaks off leaves nothing behind.
 * @throws {AppError} not-signed-in where it is somebody else's; not-found for outsiders, and where the name is another's;
 *   take-too-long, take-damaged, upload-broken
 */
export async function addTake(
  deps: AddTakeDeps,
  actor: Actor,
  songId: string,
  sent: SentTake,
): Promise<Take> {
  const { db, blobs, hub } = deps;
  if (sent.about.ownerId !== actor.userId) throw new AppError("not-signed-in");
  await requireSongMember(db, songId, actor.userId);
  const there = await ownTakeOf(deps, actor, songId, sent.id);
  if (there) return there;
  if (sent.byteCount !== null && sent.byteCount > MAX_TAKE_BYTES) throw tooLong();
  if (!sent.body) throw new AppError("take-damaged");
  const incoming = await receive(deps, sent, sent.body);
  try {
    const sound = await readTakeSound(incoming.path, incoming.byteCount);
    const take = await store(deps, actor, songId, sent, incoming, sound);
    hub.announceTakes(songId, actor.userId);
    return take;
  } finally {
    await blobs.discard(incoming);
  }
}

async function ownTakeOf(
  { db }: AddTakeDeps,
  { userId }: Actor,
  songId: string,
  id: string,
): Promise<Take | null> {
  const there = await db.take.findUnique({ where: { id }, select: TAKE_COLUMNS });
  if (!there) return null;
  if (there.ownerId !== userId || there.songId !== songId) throw new AppError("not-found");
  return toTake(there, userId);
}

async function receive(
  { blobs }: AddTakeDeps,
  { byteCount, signal }: SentTake,
  body: AsyncIterable<Uint8Array>,
): Promise<Incoming> {
  let incoming: Incoming;
  try {
    incoming = await blobs.receive(body, { maxBytes: MAX_TAKE_BYTES, signal });
  } catch (fault) {
    if (isTooManyBytes(fault)) throw tooLong();
    throw new AppError("upload-broken", {}, { cause: fault });
  }
  if (byteCount !== null && incoming.byteCount !== byteCount) {
    await blobs.discard(incoming);
    throw new AppError("upload-broken");
  }
  return incoming;
}

/** Bytes, waveform and row: all of them, or none. */
async function store(
  deps: AddTakeDeps,
  actor: Actor,
  songId: string,
  { id, about, signal }: SentTake,
  incoming: Incoming,
  { peaks, ...sound }: TakeSound,
): Promise<Take> {
  const { db, blobs } = deps;
  const { sha256, byteCount } = incoming;
  try {
    return await db.$transaction(
      async (tx) => {
        await requireSongMember(tx, songId, actor.userId);
        await lockBlobs(tx, [sha256]);
        signal?.throwIfAborted();
        await blobs.commit(incoming);
        await tx.blob.upsert({
          where: { sha256 },
          create: { sha256, byteCount: BigInt(byteCount), mediaType: TAKE_MEDIA_TYPE },
          update: {},
        });
        await tx.peaks.upsert({ where: { sha256 }, create: { sha256, data: peaks }, update: {} });
        const { madeAtMs, ...times } = about;
        const row = await tx.take.create({
          data: { id, songId, sha256, ...times, ...sound, madeAt: new Date(madeAtMs) },
          select: TAKE_COLUMNS,
        });
        return toTake(row, actor.userId);
      },
      { maxWait: 10_000, timeout: 30_000 },
    );
  } catch (fault) {
    await forgetUnused(db, blobs, [sha256]).catch(() => undefined);
    // Sent twice at once: the other has kept it.
    const there = await ownTakeOf(deps, actor, songId, id);
    if (there) return there;
    if (signal?.aborted) throw new AppError("upload-broken", {}, { cause: fault });
    throw fault;
  }
}
