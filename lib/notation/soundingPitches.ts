import type { Copedent } from "@/lib/instrument/Copedent";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import type { Midi } from "@/lib/units/quantities";
import type { PartEvent } from "./PartEvent";
import { ringsInto } from "./soundedEnd";

/** How far a harmonic sounds above the string as it is held. */
export const HARMONIC_SEMITONES = 12;

/**
 * The pitches that an event sounds, one for each of its strings; null where a string gives none. A harmonic sounds an octave
 * higher, and so does what goes on from one without a pick.
 * @param part all events, in order of time
 * @throws UnknownChangeError on an id that the copedent lacks
 */
export function soundingPitches(
  copedent: Copedent,
  event: PartEvent,
  part: readonly PartEvent[],
): (Midi | null)[] {
  return stoppedPitches(copedent, event).map((midi, at) =>
    midi !== null && isHarmonicOn(event, event.strings[at]!, part) ? midi + HARMONIC_SEMITONES : midi,
  );
}

/** Whether the pick that a string sounds from was touched as a harmonic. */
function isHarmonicOn(event: PartEvent, string: number, part: readonly PartEvent[]): boolean {
  let picked = event;
  while (picked.articulation !== "pick") {
    const { startSec } = picked;
    const before = part.findLast((each) => each.startSec < startSec && each.strings.includes(string));
    if (!before || !ringsInto(before, startSec)) break;
    picked = before;
  }
  return picked.techniques?.includes("harmonic") ?? false;
}
