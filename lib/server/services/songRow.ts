import type { SongRow } from "@/lib/contracts/books";
import type { Prisma } from "../db/generated/client";
import { RUN_COLUMNS, runStatus } from "../hearing/runStatus";

/** What {@link toSongRow} reads of a song: never a hearing's result, which is large. */
export const SONG_ROW = {
  id: true,
  title: true,
  durationSec: true,
  createdAt: true,
  addedById: true,
  addedBy: { select: { name: true } },
  hearingRuns: { orderBy: { createdAt: "desc" }, take: 1, select: RUN_COLUMNS },
} as const satisfies Prisma.SongSelect;

type SongWithRun = Prisma.SongGetPayload<{ select: typeof SONG_ROW }>;

/** A song as lists show it. */
export function toSongRow(song: SongWithRun): SongRow {
  const run = song.hearingRuns[0];
  return {
    id: song.id,
    title: song.title,
    durationSec: song.durationSec,
    addedById: song.addedById,
    addedByName: song.addedBy.name,
    addedAt: song.createdAt.toISOString(),
    hearing: run ? runStatus(run) : null,
  };
}
