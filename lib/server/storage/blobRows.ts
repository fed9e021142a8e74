import type { Prisma, PrismaClient } from "../db/generated/client";
import type { BlobStore } from "./BlobStore";

// Whoever keeps or forgets bytes of a name holds this, so that bytes are never forgotten as they are added again.
async function lockBlob(tx: Prisma.TransactionClient, sha256: string): Promise<void> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`blob:${sha256}`}, 0))`;
}

/** Locks in one order, so that two additions never wait for each other. */
export async function lockBlobs(tx: Prisma.TransactionClient, names: readonly string[]): Promise<void> {
  for (const sha256 of [...new Set(names)].sort()) await lockBlob(tx, sha256);
}

const UNUSED = { songs: { none: {} }, listened: { none: {} }, earCopies: { none: {} }, takes: { none: {} } };

/** Forgets bytes that nothing uses any more, with their row, their waveform and the copy that was made of them. */
export async function forgetUnused(
  db: PrismaClient,
  blobs: BlobStore,
  names: readonly string[],
): Promise<void> {
  for (const sha256 of new Set(names)) {
    const copy = await db.$transaction(async (tx) => {
      await lockBlob(tx, sha256);
      const copy = await tx.earCopy.findUnique({ where: { recordSha256: sha256 } });
      await tx.blob.deleteMany({ where: { sha256, ...UNUSED } });
      if ((await tx.blob.count({ where: { sha256 } })) > 0) return copy;
      await tx.peaks.deleteMany({ where: { sha256 } });
      // Before the row is gone for good: bytes that a kill leaves have a row by which the next start finds them.
      await blobs.remove(sha256);
      return copy;
    });
    if (copy) await forgetUnused(db, blobs, [copy.sha256]);
  }
}

/** Forgets what a killed server had begun to forget: nobody's record stays longer than its songs. */
export async function forgetAllUnused(db: PrismaClient, blobs: BlobStore): Promise<void> {
  const left = await db.blob.findMany({ where: UNUSED, select: { sha256: true } });
  await forgetUnused(
    db,
    blobs,
    left.map(({ sha256 }) => sha256),
  );
}
