/** A song as far as room is concerned. */
export interface TakesRoom {
  songId: string;
  visitedAtMs: number;
  /** Of its recording and all else that is kept of it. */
  byteCount: number;
}

/**
 * Which songs give up their room so that one more of `wantedBytes` fits: those that were not opened for the longest.
 * @param songs all that are kept but the one that wants room
 * @returns their ids, oldest first; null where it would not fit even alone
 */
export function oldestFirst(
  songs: readonly TakesRoom[],
  wantedBytes: number,
  limitBytes: number,
): string[] | null {
  if (wantedBytes > limitBytes) return null;
  let takenBytes = songs.reduce((sum, { byteCount }) => sum + byteCount, 0);
  const leaving: string[] = [];
  for (const song of [...songs].sort((a, b) => a.visitedAtMs - b.visitedAtMs)) {
    if (takenBytes + wantedBytes <= limitBytes) break;
    leaving.push(song.songId);
    takenBytes -= song.byteCount;
  }
  return leaving;
}
