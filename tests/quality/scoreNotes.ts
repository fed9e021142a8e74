import { GLIDE_WINDOW_SEC, type GlideScore, glideScore, type ReferenceGlide } from "./metrics/glideScore";
import { noteScore, type Passage, type ReferenceNote } from "./metrics/noteScore";
import type { PredictedNote } from "./prediction";

/** Metrics by name; what a passage has none of is missing. */
export type SteelScore = Partial<Record<string, number>>;

function present(values: Record<string, number | null>): SteelScore {
  return Object.fromEntries(
    Object.entries(values).filter((entry): entry is [string, number] => entry[1] !== null),
  );
}

/** @param shift semitones by which the record stands from A4 = 440 Hz; reference pitches are relative to its own tuning */
function toOwnTuning(notes: readonly PredictedNote[], shift: number): PredictedNote[] {
  return notes.map((note) => ({ ...note, midi: note.midi - shift }));
}

/** All notes of the passage. */
export function scoreNotes(
  reference: readonly ReferenceNote[],
  notes: readonly PredictedNote[],
  passage: Passage,
  shift: number,
): SteelScore {
  const { precision, recall, f, slideRecall, leadRecall, dyadRate } = noteScore(
    reference,
    toOwnTuning(notes, shift),
    passage,
  );
  return present({ noteP: precision, noteR: recall, noteF: f, slideRecall, leadRecall, dyadRate });
}

/** The steel's notes and glides; where any predicted note is said to be the steel's, only those count. */
export function scoreSteel(
  reference: readonly ReferenceNote[],
  glides: readonly ReferenceGlide[],
  notes: readonly PredictedNote[],
  passage: Passage,
  shift: number,
): SteelScore {
  const roleGiven = notes.some(({ role }) => role === "steel");
  const counted = roleGiven ? notes.filter(({ role }) => role === "steel") : notes;
  const steel = reference.filter(({ role }) => role === "steel");
  const { precision, recall, f } = noteScore(steel, toOwnTuning(counted, shift), passage);
  const given = counted
    .flatMap((note) => note.glides ?? [])
    .map((glide) => ({ ...glide, toMidi: glide.toMidi - shift }))
    .filter(
      ({ atSec }) =>
        passage.startSec - GLIDE_WINDOW_SEC <= atSec && atSec < passage.endSec + GLIDE_WINDOW_SEC,
    );
  const wanted = glides.filter(({ atSec }) => passage.startSec <= atSec && atSec < passage.endSec);
  const moved: GlideScore | null = glideScore(wanted, given);
  return {
    ...present({ leadP: precision, leadR: recall, leadF: f, leadRoleGiven: roleGiven ? 1 : 0 }),
    ...present({
      glideRecall: moved?.recall ?? null,
      glidePrecision: moved?.precision ?? null,
      glideMechanism: moved?.mechanism ?? null,
      glideMechanismClear: moved?.mechanismClear ?? null,
      glideKindOfFound: moved?.kindOfFound ?? null,
    }),
  };
}
