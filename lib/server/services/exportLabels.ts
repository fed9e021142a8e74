import { type LabelsFile, labelsFile, type SongToLabel } from "@/lib/contracts/labels";
import type { BandHearing } from "@/lib/document/labels/bandProposals";
import type { LabelKind } from "@/lib/document/labels/Label";
import { readLabels } from "@/lib/document/labels/readLabels";
import { readKind } from "@/lib/document/read/readSong";
import { readHeard } from "@/lib/document/read/settle";
import type { Hearing } from "@/lib/hearing/Hearing";
import { AppError } from "../AppError";
import type { Actor } from "../auth/session";
import type { House } from "../house";
import { type Db, requireMaker, requireSongOwner } from "./memberOf";

export type ExportLabelsDeps = Pick<House, "db" | "hub">;

/**
 * What people made of what was heard in a song, as a file for its owner. Nothing but what is asked for is in it.
 * @throws {AppError} not-found for outsiders; not-allowed unless one made the book or added the song
 */
export async function exportSongLabels(
  deps: ExportLabelsDeps,
  actor: Actor,
  songId: string,
  kinds: readonly LabelKind[],
): Promise<LabelsFile> {
  await requireSongOwner(deps.db, songId, actor.userId);
  const song = await songToLabel(deps, songId);
  if (!song) throw new AppError("not-found");
  return labelsFile([song], kinds);
}

/**
 * The same of all songs of a book, in the order in which they were added.
 * @throws {AppError} not-found for outsiders, not-allowed for members who did not make the book
 */
export async function exportBookLabels(
  deps: ExportLabelsDeps,
  actor: Actor,
  bookId: string,
  kinds: readonly LabelKind[],
): Promise<LabelsFile> {
  await requireMaker(deps.db, bookId, actor.userId);
  const songs = await deps.db.song.findMany({
    where: { bookId },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    select: { id: true },
  });
  const told: SongToLabel[] = [];
  for (const { id } of songs) {
    const song = await songToLabel(deps, id);
    // It may have been removed meanwhile.
    if (song) told.push(song);
  }
  return labelsFile(told, kinds);
}

async function songToLabel({ db, hub }: ExportLabelsDeps, songId: string): Promise<SongToLabel | null> {
  const song = await db.song.findUnique({
    where: { id: songId },
    select: { recordSha256: true, durationSec: true },
  });
  if (!song) return null;
  const runId = await hub.edit(songId, (doc) => readHeard(doc)?.runId ?? null);
  const band = runId === null ? null : await bandOf(db, songId, runId);
  return hub.edit(songId, (doc) => ({
    ...song,
    tuningCents: readKind(doc, "tuning").shown?.tuningCents ?? null,
    // Another hearing may have come in meanwhile.
    read: readLabels(doc, readHeard(doc)?.runId === runId ? band : null),
  }));
}

/**
 * All notes of a run, of which the shared song holds the steel's only; null where it heard none. The run's name is read
 * off the shared song, where every writer could put another: a run of another song is passed over.
 */
async function bandOf(db: Db, songId: string, runId: string): Promise<BandHearing | null> {
  const run = await db.hearingRun.findUnique({ where: { id: runId, songId }, select: { result: true } });
  const hearing = run?.result as Pick<Hearing, "notes" | "version"> | null | undefined;
  return hearing?.notes ? { notes: hearing.notes, version: hearing.version } : null;
}
