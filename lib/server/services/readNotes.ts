import type { SongNotes } from "@/lib/contracts/notes";
import type { HeardNote, Hearing } from "@/lib/hearing/Hearing";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import type { Actor } from "../auth/session";
import { type Db, requireSongMember } from "./memberOf";

/**
 * The band's notes as the latest finished hearing told them: too many for the shared song, and nobody edits them.
 * @throws {AppError} not-found for outsiders, as if there were no such song
 */
export async function readNotes(db: Db, actor: Actor, songId: string): Promise<SongNotes> {
  await requireSongMember(db, songId, actor.userId);
  const run = await db.hearingRun.findFirst({
    where: { songId, state: "done" },
    orderBy: { createdAt: "desc" },
    select: { result: true },
  });
  const hearing = run?.result as Pick<Hearing, "notes"> | null | undefined;
  if (!hearing || hearing.notes === undefined) return { state: "notHeard", notes: [] };
  if (hearing.notes === null) return { state: "noEar", notes: [] };
  return { state: "heard", notes: hearing.notes.filter((note: HeardNote) => !isSteel(note)) };
}
