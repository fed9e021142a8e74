import type { HeardNote } from "@/lib/hearing/Hearing";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import { beginTogether, isSamePitch } from "../records/sameNote";
import type { Label, LabelValues } from "./Label";
import { changedNames } from "./labelValues";

/** The band's notes of a hearing, which are not in the document (rule D28). */
export interface BandHearing {
  notes: readonly HeardNote[];
  /** Name and number of the method. */
  version: string;
}

/**
 * The labels of notes, where those that people added as the steel's, and the machine had heard as the band's, say so:
 * whose they are is then what was corrected. Each note of the band goes with one at most, the nearest in time.
 */
export function withBand(labels: readonly Label<"note">[], { notes, version }: BandHearing): Label<"note">[] {
  const free = new Set(notes.filter((note) => !isSteel(note)));
  return labels.map((label) => {
    const { act, settled } = label;
    if (act !== "added" || settled === null || settled.whose === "band") return label;
    const heard = nearest(free, settled);
    if (heard === null) return label;
    free.delete(heard);
    const { startSec, endSec, midi, glides, confidence, steel } = heard;
    const values: LabelValues["note"] = { startSec, endSec, midi, glides, whose: "band" };
    return {
      ...label,
      act: "corrected",
      proposed: { values, confidence, aside: { steel }, ear: version },
      changed: changedNames(settled, values),
    };
  });
}

function nearest(notes: Iterable<HeardNote>, { startSec, midi }: LabelValues["note"]): HeardNote | null {
  let found: HeardNote | null = null;
  for (const note of notes) {
    if (!beginTogether(note.startSec, startSec) || !isSamePitch(note.midi, midi)) continue;
    if (found && Math.abs(found.startSec - startSec) <= Math.abs(note.startSec - startSec)) continue;
    found = note;
  }
  return found;
}
