import type { EarCopyStatus } from "@/lib/contracts/earCopy";
import type { Actor } from "../auth/session";
import type { House } from "../house";
import { recordOf } from "./recordOf";

/**
 * Has the copy made that passages of a song are heard from, where there is none; to be asked again until it is ready.
 * @throws {AppError} not-found for outsiders, as if there were no such song; ear-copy-failed
 */
export async function wantEarCopy(
  { db, earCopies }: Pick<House, "db" | "earCopies">,
  actor: Actor,
  songId: string,
): Promise<EarCopyStatus> {
  return earCopies.want(await recordOf(db, actor, songId));
}
