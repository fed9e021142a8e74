import { EAR_COPY_MEDIA_TYPE } from "@/lib/contracts/earCopy";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import { findEarCopy } from "../storage/earCopyRows";
import type { RangedBytes } from "../storage/rangedResponse";
import type { OpenRecordDeps } from "./openRecord";
import { recordOf } from "./recordOf";

/**
 * The copy of a song's record that passages are heard from (lib/contracts/earCopy.ts).
 * @throws {AppError} not-found for outsiders, as if there were no such song; no-ear-copy until it is made
 */
export async function openEarCopy(
  { db, blobs }: OpenRecordDeps,
  actor: Actor,
  songId: string,
): Promise<RangedBytes> {
  const copy = await findEarCopy(db, blobs, await recordOf(db, actor, songId));
  if (!copy) throw new AppError("no-ear-copy");
  const { sha256, byteCount } = copy;
  return {
    etag: `"${sha256}"`,
    byteCount,
    mediaType: EAR_COPY_MEDIA_TYPE,
    open: (start, end) => blobs.openRange(sha256, start, end),
  };
}
