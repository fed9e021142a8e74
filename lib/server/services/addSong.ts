import { randomUUID } from "node:crypto";
import { type SongRow, songTitleSchema } from "@/lib/contracts/books";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import type { House } from "../house";
import { newId } from "../newId";
import { type Incoming, isTooManyBytes } from "../storage/BlobStore";
import { forgetUnused, lockBlobs } from "../storage/blobRows";
import type { LookedAt } from "../storage/intake";
import { firstHead } from "./firstHead";
import { requireWriter } from "./memberOf";
import { SONG_ROW, toSongRow } from "./songRow";

export type AddSongDeps = Pick<House, "db" | "jobs" | "blobs" | "intake" | "config">;

/** What a record comes under. */
export interface RecordLabel {
  fileName: string;
  /** The file's name without its ending when missing. */
  title?: string | null;
  /** Media type, as whoever sends it says. */
  declaredType?: string | null;
}

export interface UploadedRecord extends RecordLabel {
  body: AsyncIterable<Uint8Array> | null;
  /** As announced; null where it was not. */
  byteCount: number | null;
  /** Ends the upload; nothing is kept. */
  signal?: AbortSignal;
}

function megabytes(byteCount: number): string {
  return `${Number((byteCount / 1e6).toFixed(1))} MB`;
}

function titleFor({ title, fileName }: RecordLabel): string {
  // PostgreSQL holds no NUL in texts.
  const clean = (text: string) => text.replaceAll("\0", "").trim().slice(0, 200);
  const wanted = clean(title ?? "") || clean(fileName.replace(/\.[^./\\]*$/, "")) || "Untitled";
  return songTitleSchema.parse({ title: wanted }).title;
}

/**
 * Adds a song whose record lies in a file on this machine; the file stays where it is.
 * @throws {AppError} not-found, not-allowed, or what is wrong with the record
 */
export async function addSong(
  deps: AddSongDeps,
  actor: Actor,
  bookId: string,
  record: RecordLabel & { path: string },
): Promise<SongRow> {
  await requireWriter(deps.db, bookId, actor.userId);
  const maxBytes = deps.config.maxUploadBytes;
  const incoming = await deps.blobs.receiveFile(record.path, { maxBytes }).catch((fault) => {
    throw isTooManyBytes(fault) ? new AppError("too-large", { limit: megabytes(maxBytes) }) : fault;
  });
  return keepSong(deps, actor, bookId, incoming, record);
}

/**
 * Adds a song from bytes as they come in. An upload that breaks leaves nothing behind.
 * @throws {AppError} not-found, not-allowed, too-large, upload-broken, or what is wrong with the record
 */
export async function addUploadedSong(
  deps: AddSongDeps,
  actor: Actor,
  bookId: string,
  record: UploadedRecord,
): Promise<SongRow> {
  await requireWriter(deps.db, bookId, actor.userId);
  const maxBytes = deps.config.maxUploadBytes;
  const { byteCount, signal } = record;
  if (byteCount !== null && byteCount > maxBytes)
    throw new AppError("too-large", { limit: megabytes(maxBytes) });
  if (!record.body) throw new AppError("empty");
  let incoming: Incoming;
  try {
    incoming = await deps.blobs.receive(untilBroken(record.body), { maxBytes, signal });
  } catch (fault) {
    if (isTooManyBytes(fault)) throw new AppError("too-large", { limit: megabytes(maxBytes) });
    if (signal?.aborted) throw new AppError("upload-broken", {}, { cause: fault });
    throw fault;
  }
  if (byteCount !== null && incoming.byteCount !== byteCount) {
    await deps.blobs.discard(incoming);
    throw new AppError("upload-broken");
  }
  return keepSong(deps, actor, bookId, incoming, record, signal);
}

/** Tells a line that broke from a disk that did. */
async function* untilBroken(body: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  try {
    yield* body;
  } catch (fault) {
    throw new AppError("upload-broken", {}, { cause: fault });
  }
}

async function keepSong(
  deps: AddSongDeps,
  actor: Actor,
  bookId: string,
  incoming: Incoming,
  label: RecordLabel,
  signal?: AbortSignal,
): Promise<SongRow> {
  const { blobs, intake, jobs } = deps;
  let looked: LookedAt | null = null;
  try {
    const declared = { fileName: label.fileName, mediaType: label.declaredType };
    looked = await intake.look(incoming.path, declared, signal);
    signal?.throwIfAborted();
    const row = await store(deps, actor, bookId, incoming, label, looked);
    jobs.wake();
    return row;
  } catch (fault) {
    if (signal?.aborted) throw new AppError("upload-broken", {}, { cause: fault });
    throw fault;
  } finally {
    await blobs.discard(incoming);
    if (looked?.listening) await blobs.discard(looked.listening.incoming);
  }
}

/** Bytes, song, the head of its part, run and job: all of them, or none. */
async function store(
  deps: AddSongDeps,
  actor: Actor,
  bookId: string,
  incoming: Incoming,
  label: RecordLabel,
  { facts, listening }: LookedAt,
): Promise<SongRow> {
  const { db, blobs, jobs } = deps;
  const kept = [
    { incoming, mediaType: facts.mediaType },
    ...(listening ? [{ incoming: listening.incoming, mediaType: listening.mediaType }] : []),
  ];
  const names = kept.map((one) => one.incoming.sha256);
  const songId = newId();
  const runId = randomUUID();
  try {
    return await db.$transaction(
      async (tx) => {
        // Asked again: reading a long record takes a while.
        await requireWriter(tx, bookId, actor.userId);
        await lockBlobs(tx, names);
        for (const one of kept) {
          const { sha256, byteCount } = one.incoming;
          await blobs.commit(one.incoming);
          await tx.blob.upsert({
            where: { sha256 },
            create: { sha256, byteCount: BigInt(byteCount), mediaType: one.mediaType },
            update: {},
          });
        }
        await tx.song.create({
          data: {
            id: songId,
            bookId,
            title: titleFor(label),
            recordSha256: incoming.sha256,
            listeningSha256: listening?.incoming.sha256 ?? null,
            durationSec: facts.durationSec,
            sampleRateHz: facts.sampleRateHz,
            channelCount: facts.channelCount,
            addedById: actor.userId,
          },
        });
        const head = await firstHead(tx, actor.userId);
        if (head) await tx.docUpdate.create({ data: { songId, data: head } });
        await tx.hearingRun.create({ data: { id: runId, songId } });
        await jobs.startHearing(runId, songId, tx);
        return toSongRow(await tx.song.findUniqueOrThrow({ where: { id: songId }, select: SONG_ROW }));
      },
      { maxWait: 10_000, timeout: 30_000 },
    );
  } catch (fault) {
    await forgetUnused(db, blobs, names).catch(() => undefined);
    throw fault;
  }
}
