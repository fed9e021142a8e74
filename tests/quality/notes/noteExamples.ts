import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { arrivalCandidates, pickCandidates } from "@/lib/hearing/notes/candidates";
import { frameAt, NoteMaps } from "@/lib/hearing/notes/NoteMaps";
import { PartialRise } from "@/lib/hearing/notes/PartialRise";
import { presenceEvidence } from "@/lib/hearing/notes/presenceEvidence";
import { hearTuning } from "@/lib/hearing/tuning";
import { matchNotes, SLIDE_WINDOW_SEC } from "@/lib/scoring/noteMatching";
import type { Truth } from "../Subject";

/** Who plays the notes of a passage. */
export type Players = "steel" | "band" | "steel and band";

export interface Labelled {
  evidence: Record<string, number>;
  /** It is a pick, or the arrival of a glide. */
  holds: boolean;
  /** It is a pick of the steel. */
  ofSteel: boolean;
  /** Others strike it, perhaps with the steel. */
  ofBand: boolean;
}

/** What one record teaches. */
export interface NoteExamples {
  id: string;
  players: Players;
  presence: Record<string, number>;
  picks: Labelled[];
  arrivals: Labelled[];
}

const CONTEXT_SEC = 2;

/** Every candidate within the passage of a record, with what the annotation says of it. */
export function noteExamples(
  id: string,
  sound: StereoSignal,
  ear: NotesEar,
  { span, notes }: NonNullable<Truth["passage"]>,
): NoteExamples {
  const { signal } = sound;
  const tuningCents = hearTuning(signal).cents;
  const maps = new NoteMaps(
    ear.noteMaps,
    frameAt(span.startSec - CONTEXT_SEC),
    frameAt(span.endSec + CONTEXT_SEC),
  );
  ear.listen(sound, (frame) => maps.keep(frame));
  const picked = notes.filter(({ kind }) => kind === "attack");
  const bySteel = picked.filter(({ role }) => role === "steel");
  const byBand = picked.filter(({ role }) => role !== "steel");
  const gliding = notes.filter(({ kind }) => kind === "slide");
  const inside = ({ timeSec }: { timeSec: number }) => span.startSec <= timeSec && timeSec < span.endSec;
  const timed = ({ timeSec, midi }: { timeSec: number; midi: number }) => ({
    startSec: timeSec,
    endSec: timeSec,
    midi,
  });
  const picks = pickCandidates(maps, new PartialRise(signal, tuningCents), tuningCents);
  const arrivals = arrivalCandidates(maps, tuningCents);
  const [pickOf, steelOf, bandOf] = [picked, bySteel, byBand].map((reference) =>
    matchNotes(reference, picks.map(timed)),
  );
  const glideOf = matchNotes(gliding, arrivals.map(timed), SLIDE_WINDOW_SEC);
  return {
    id,
    players: bySteel.length === 0 ? "band" : bySteel.length === picked.length ? "steel" : "steel and band",
    presence: presenceEvidence(maps),
    picks: picks
      .map((pick, i) => ({
        ...pick,
        holds: pickOf![i]! >= 0,
        ofSteel: steelOf![i]! >= 0,
        ofBand: bandOf![i]! >= 0,
      }))
      .filter(inside),
    arrivals: arrivals
      .map((arrival, i) => ({ ...arrival, holds: glideOf[i]! >= 0, ofSteel: false, ofBand: false }))
      .filter(inside),
  };
}
