import { matchNotes, ONSET_WINDOW_SEC } from "@/lib/scoring/noteMatching";
import type { Prediction } from "../prediction";
import type { Truth } from "../Subject";
import { addTo, counted, largest } from "./words";

/** A note of the right pitch this far off is late or early rather than missed. */
const NEAR_SEC = 0.15;

/** What becomes of the bass's notes that are not found, and what is told that is not played. */
export function bassReason({ bass }: Truth, { hearing }: Prediction): string {
  const reference = bass!.filter(({ kind }) => kind === "attack");
  const matches = matchNotes(reference, hearing.bass);
  const found = new Set(matches.filter((match) => match >= 0));
  const left = hearing.bass.filter((_, i) => matches[i]! < 0);
  const kinds = new Map<string, number>();
  reference.forEach((note, i) => {
    if (found.has(i)) return;
    const near = left.filter((other) => Math.abs(other.startSec - note.startSec) <= NEAR_SEC);
    const samePitch = near.find((other) => Math.abs(other.midi - note.midi) <= 0.5);
    const together = near.find((other) => Math.abs(other.startSec - note.startSec) <= ONSET_WINDOW_SEC);
    if (samePitch) addTo(kinds, samePitch.startSec > note.startSec ? "late" : "early", 1);
    else if (together && Math.round(Math.abs(together.midi - note.midi)) % 12 === 0)
      addTo(kinds, "in another octave", 1);
    else if (together) addTo(kinds, "at another pitch", 1);
    else addTo(kinds, "missed", 1);
  });
  const missed = largest(kinds, (count) => String(count));
  return `${reference.length - found.size} of ${counted(reference.length, "note")} not found${missed ? ` (${missed})` : ""}; ${left.length} told that are not played so`;
}
