import type { Blob } from "../db/generated/client";
import type { BlobStore } from "./BlobStore";
import type { RangedBytes } from "./rangedResponse";

/** Kept bytes as they are answered with, by their row: they never change under their name. */
export function blobBytes(
  blobs: Pick<BlobStore, "openRange">,
  { sha256, byteCount, mediaType }: Pick<Blob, "sha256" | "byteCount" | "mediaType">,
): RangedBytes {
  return {
    etag: `"${sha256}"`,
    byteCount: Number(byteCount),
    mediaType,
    open: (start, end) => blobs.openRange(sha256, start, end),
  };
}
