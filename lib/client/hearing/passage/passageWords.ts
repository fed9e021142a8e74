import type { HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import type { Seconds } from "@/lib/units/quantities";

/** The longest passage that is heard at once. */
const MOST_SEC: Seconds = 60;
/** The shortest: below it two edges count as one. */
const LEAST_SEC: Seconds = 0.02;

/** Why a passage cannot be heard at once, in words; null where it can. */
export function whyNotHeard({ startSec, endSec }: HeardStretch): string | null {
  if (endSec - startSec > MOST_SEC) return "Select a minute or less to hear its notes at once.";
  return endSec - startSec < LEAST_SEC ? "There is no room for a note here." : null;
}

/** How far it is: what is being done, and 0 to 1. */
export interface PassageStep {
  name: "copy" | "fetch" | "hear";
  fraction: number;
}

const DOING: Readonly<Record<PassageStep["name"], string>> = {
  copy: "Making the record ready for the ear",
  fetch: "Fetching the passage",
  hear: "Hearing the notes",
};

export function stepWords({ name, fraction }: PassageStep): string {
  return name === "fetch" ? DOING.fetch : `${DOING[name]}, ${Math.round(fraction * 100)} %`;
}

/**
 * What came of it, in a sentence.
 * @param wasWritten false where the steel's notes stood there as they were heard
 */
export function heardWords(notes: readonly HeardNote[], wasWritten: boolean): string {
  const count = notes.filter(isSteel).length;
  if (count === 0) return "No note of the steel was heard here.";
  const many = count === 1 ? "One note of the steel" : `${count} notes of the steel`;
  if (wasWritten) return `${many} heard here, in pencil.`;
  return `${many} heard here, as ${count === 1 ? "it stood" : "they stood"} already.`;
}
