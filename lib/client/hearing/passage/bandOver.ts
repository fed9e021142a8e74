import { beginsIn } from "@/lib/document/read/passages";
import type { HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import { isSteel } from "@/lib/hearing/notes/isSteel";

/** A passage that was heard alone, with all of its notes. */
export interface HeardAlone extends HeardStretch {
  notes: readonly HeardNote[];
}

/**
 * The band's notes of a hearing of the whole song, with those of passages that were heard since in place of what it
 * had there.
 * @param whole in order of time
 * @param passages in the order in which they were heard
 * @returns in order of time
 */
export function bandOver(whole: readonly HeardNote[], passages: readonly HeardAlone[]): readonly HeardNote[] {
  if (passages.length === 0) return whole;
  let notes = [...whole];
  for (const passage of passages) {
    const here = passage.notes.filter((note) => !isSteel(note));
    notes = [...notes.filter(({ startSec }) => !beginsIn(passage, startSec)), ...here];
  }
  return notes.sort((a, b) => a.startSec - b.startSec || a.midi - b.midi);
}
