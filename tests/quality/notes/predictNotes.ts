import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { hearPassage } from "@/lib/hearing/notes/hearPassage";
import { hearTuning } from "@/lib/hearing/tuning";
import { asScored, type ScoredNote } from "@/lib/scoring/scoredNote";

/** Notes that begin a little outside of the passage may match those at its edge. */
const EDGE_SEC = 0.2;

/** The notes of a passage as they are scored, at absolute pitch. */
export function predictNotes(
  { signal, side }: StereoSignal,
  ear: NotesEar,
  { startSec, endSec }: HeardStretch,
): ScoredNote[] {
  const passage = { startSec: Math.max(0, startSec - EDGE_SEC), endSec: endSec + EDGE_SEC };
  const tuningCents = hearTuning(signal).cents;
  return hearPassage({ signal, side, tuningCents, ear }, passage).flatMap((note) =>
    asScored(note, tuningCents / 100),
  );
}
