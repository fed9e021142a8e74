import type { HeardStretch } from "@/lib/hearing/Hearing";
import { countGlides, GLIDE_WINDOW_SEC, type GlideCounts, type ReferenceGlide } from "./glideScore";
import { countNotes, type NoteCounts, type ReferenceNote } from "./noteScore";
import type { ScoredNote } from "./scoredNote";

/** What is found of the steel in a passage; counts of several passages add up. */
export interface SteelCounts {
  notes: NoteCounts;
  glides: GlideCounts;
}

/**
 * The steel's notes and glides of a passage.
 * @param reference all notes; those of other roles than `steel` are passed over
 * @param counted what is taken for the steel's; pitches to be compared as they are
 */
export function countSteel(
  reference: readonly ReferenceNote[],
  glides: readonly ReferenceGlide[],
  counted: readonly ScoredNote[],
  passage: HeardStretch,
): SteelCounts {
  const { startSec, endSec } = passage;
  const steel = reference.filter(({ role }) => role === "steel");
  const given = counted
    .flatMap((note) => note.glides ?? [])
    .filter(({ atSec }) => startSec - GLIDE_WINDOW_SEC <= atSec && atSec < endSec + GLIDE_WINDOW_SEC);
  const wanted = glides.filter(({ atSec }) => startSec <= atSec && atSec < endSec);
  return { notes: countNotes(steel, counted, passage), glides: countGlides(wanted, given) };
}
