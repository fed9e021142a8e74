import type { Signal } from "@/lib/dsp/Signal";
import type { HeardNote } from "@/lib/hearing/Hearing";
import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { hearPassage } from "@/lib/hearing/notes/hearPassage";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import { hearTuning } from "@/lib/hearing/tuning";
import type { Passage } from "../metrics/noteScore";
import type { PredictedNote } from "../prediction";

/** Notes that begin a little outside of the passage may match those at its edge. */
const EDGE_SEC = 0.2;

/**
 * The notes of a passage as they are scored, at absolute pitch. Where a glide arrives the references have a note
 * without a pick, so a note is given there too.
 */
export function predictNotes(
  signal: Signal,
  ear: LearnedEar,
  { startSec, endSec }: Passage,
): PredictedNote[] {
  const passage = { startSec: Math.max(0, startSec - EDGE_SEC), endSec: endSec + EDGE_SEC };
  const tuningCents = hearTuning(signal).cents;
  return hearPassage({ signal, tuningCents, ear }, passage).flatMap((note) =>
    asScored(note, tuningCents / 100),
  );
}

function asScored(note: HeardNote, shift: number): PredictedNote[] {
  const { startSec, endSec } = note;
  const role = isSteel(note) ? "steel" : "band";
  const glides = note.glides.map(({ kind, toMidi, atSec }) => ({
    atSec,
    toMidi: toMidi + shift,
    kind: kind === "unsure" ? null : kind,
  }));
  const arrivals = glides.map(({ atSec, toMidi }) => ({ startSec: atSec, endSec, midi: toMidi, role }));
  return [{ startSec, endSec, midi: note.midi + shift, role, glides }, ...arrivals];
}
