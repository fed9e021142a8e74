import type { Seconds } from "@/lib/units/quantities";
import type { HeardNote, HeardStretch } from "../Hearing";
import { hearPassage, type PassageHearing } from "./hearPassage";

/** So much is heard at once: what is kept of each second is large. */
const PIECE_SEC: Seconds = 60;

/**
 * The notes that begin in a stretch of any length, in order of time, with no more in memory than a piece of it takes.
 * @param onFraction told often how far it is, 0 to 1; throw there to stop
 */
export function hearNotesInPieces(
  hearing: PassageHearing,
  { startSec, endSec }: HeardStretch,
  onFraction: (fraction: number) => void = () => {},
): HeardNote[] {
  const notes: HeardNote[] = [];
  const lengthSec = endSec - startSec;
  for (let fromSec = startSec; fromSec < endSec; fromSec += PIECE_SEC) {
    const piece = { startSec: fromSec, endSec: Math.min(endSec, fromSec + PIECE_SEC) };
    const doneSec = fromSec - startSec;
    const pieceSec = piece.endSec - fromSec;
    const found = hearPassage(hearing, piece, (index, count) =>
      onFraction((doneSec + (pieceSec * index) / Math.max(1, count)) / lengthSec),
    );
    for (const note of found) notes.push(note);
  }
  onFraction(1);
  return notes;
}
