import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { SAME_MOMENT_SEC } from "./sameMoment";

/** Where nothing is written yet, about the middle of the neck's first half (common practice, no source). */
const USUAL_FRET = 6;

/**
 * The pitch about which notes without an octave are meant at a time: the lowest of the event that begins there or
 * before it; where there is none, the middle of the strings.
 */
export function pitchNear(copedent: Copedent, part: readonly ShownPart[], timeSec: Seconds): Midi {
  const event = part.findLast((each) => each.startSec <= timeSec + SAME_MOMENT_SEC);
  const sounding = event ? stoppedPitches(copedent, event).filter((midi) => midi !== null) : [];
  if (sounding.length > 0) return Math.min(...sounding);
  const open = copedent.strings.map(({ openMidi }) => openMidi);
  return Math.round(open.reduce((sum, midi) => sum + midi, 0) / open.length) + USUAL_FRET;
}
