import type { HeardStretch } from "@/lib/hearing/Hearing";
import { glideScoreOf, type ReferenceGlide } from "@/lib/scoring/glideScore";
import { noteScore, noteScoreOf, type ReferenceNote } from "@/lib/scoring/noteScore";
import type { ScoredNote } from "@/lib/scoring/scoredNote";
import { countSteel } from "@/lib/scoring/steelCounts";

/** Metrics by name; what a passage has none of is missing. */
export type SteelScore = Partial<Record<string, number>>;

function present(values: Record<string, number | null>): SteelScore {
  return Object.fromEntries(
    Object.entries(values).filter((entry): entry is [string, number] => entry[1] !== null),
  );
}

/** @param shift semitones by which the record stands from A4 = 440 Hz; reference pitches are relative to its own tuning */
function toOwnTuning(notes: readonly ScoredNote[], shift: number): ScoredNote[] {
  return notes.map((note) => {
    const glides = note.glides?.map((glide) => ({ ...glide, toMidi: glide.toMidi - shift }));
    return { ...note, midi: note.midi - shift, ...(glides && { glides }) };
  });
}

/** All notes of the passage. */
export function scoreNotes(
  reference: readonly ReferenceNote[],
  notes: readonly ScoredNote[],
  passage: HeardStretch,
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
  notes: readonly ScoredNote[],
  passage: HeardStretch,
  shift: number,
): SteelScore {
  const roleGiven = notes.some(({ role }) => role === "steel");
  const counted = roleGiven ? notes.filter(({ role }) => role === "steel") : notes;
  const counts = countSteel(reference, glides, toOwnTuning(counted, shift), passage);
  const { precision, recall, f } = noteScoreOf(counts.notes);
  const moved = glideScoreOf(counts.glides);
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
