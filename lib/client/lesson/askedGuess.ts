import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Copedent } from "@/lib/instrument/Copedent";
import { inOrder } from "@/lib/lesson/compareNotes";
import { pitchesOf } from "@/lib/lesson/comparePlaces";
import type { LaneValue } from "@/lib/lesson/GuessValue";
import { NO_CHORD } from "@/lib/theory/harte";
import type { Seconds } from "@/lib/units/quantities";
import type { AskedFit } from "../fit/fitMessages";

/** Notes are looked at for so long at most, as events of the part are. */
const LONGEST_NOTES_SEC: Seconds = 2;

/**
 * A learner's guess as it is held against the record, in the place that was guessed at: nothing of the answer is in it. Null
 * for what cannot be held against it.
 * @param durationSec of the record
 */
export function askedGuess(
  said: LaneValue,
  { startSec, endSec }: HeardStretch,
  copedent: Copedent,
  durationSec: Seconds,
): AskedFit | null {
  const passage = { startSec, endSec: Math.min(endSec, durationSec) };
  if (passage.endSec <= startSec) return null;
  const notes = (midis: readonly number[]): AskedFit | null =>
    midis.length === 0
      ? null
      : {
          passage: { startSec, endSec: Math.min(passage.endSec, startSec + LONGEST_NOTES_SEC) },
          guess: { kind: "notes", notes: inOrder(midis).map((midi) => ({ midi })) },
        };
  switch (said.lane) {
    case "home":
      return { passage, guess: { kind: "key", key: said.value } };
    case "changes":
      return said.value.label === NO_CHORD
        ? null
        : { passage, guess: { kind: "chord", label: said.value.label } };
    case "heard":
      return notes(said.value.midis);
    case "places":
      return notes(pitchesOf(said.value, copedent));
  }
}
