import { EAR_COPY_MEDIA_TYPE, EAR_COPY_VERSION } from "@/lib/contracts/earCopy";
import type { Prisma, PrismaClient } from "../db/generated/client";
import type { BlobStore } from "./BlobStore";
import { forgetUnused, lockBlobs } from "./blobRows";

/** A copy whose bytes are there. */
export interface KeptEarCopy {
  sha256: string;
  byteCount: number;
}

/** The copy that passages of a record are heard from; null until it is made, and where its bytes were removed. */
export async function findEarCopy(
  db: Pick<PrismaClient, "earCopy">,
  blobs: BlobStore,
  recordSha256: string,
): Promise<KeptEarCopy | null> {
  const row = await db.earCopy.findUnique({ where: { recordSha256 } });
  if (row?.version !== EAR_COPY_VERSION) return null;
  const { sha256 } = row;
  const byteCount = await blobs.byteCount(sha256).catch((fault: NodeJS.ErrnoException) => {
    if (fault.code === "ENOENT") return null;
    throw fault;
  });
  return byteCount === null ? null : { sha256, byteCount };
}

/**
 * Keeps a copy that lies in a file, in place of an earlier one; the file stays where it is. Where the record has been
 * removed meanwhile nothing is kept.
 */
export async function keepEarCopy(
  db: PrismaClient,
  blobs: BlobStore,
  recordSha256: string,
  path: string,
): Promise<void> {
  // Its length follows from that of the record, which was limited.
  const incoming = await blobs.receiveFile(path, { maxBytes: Number.POSITIVE_INFINITY });
  try {
    const { sha256 } = incoming;
    const keep = async (tx: Prisma.TransactionClient) => {
      await lockBlobs(tx, [recordSha256, sha256]);
      if ((await tx.blob.count({ where: { sha256: recordSha256 } })) === 0) return null;
      const before = await tx.earCopy.findUnique({ where: { recordSha256 } });
      await blobs.commit(incoming);
      const byteCount = BigInt(incoming.byteCount);
      await tx.blob.upsert({
        where: { sha256 },
        create: { sha256, byteCount, mediaType: EAR_COPY_MEDIA_TYPE },
        update: {},
      });
      const copy = { sha256, version: EAR_COPY_VERSION };
      await tx.earCopy.upsert({
        where: { recordSha256 },
        create: { recordSha256, ...copy },
        update: copy,
      });
      return before;
    };
    // As long as adding a song may take: the machine hears meanwhile.
    const replaced = await db.$transaction(keep, { maxWait: 10_000, timeout: 30_000 });
    if (replaced && replaced.sha256 !== sha256) await forgetUnused(db, blobs, [replaced.sha256]);
  } finally {
    await blobs.discard(incoming);
  }
}
