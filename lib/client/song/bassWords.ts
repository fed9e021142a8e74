import type { ShownBassNote } from "@/lib/document/read/SongSnapshot";
import { degreeToSemitones } from "@/lib/theory/interval";
import type { Key } from "@/lib/theory/key";
import { noteToDegree } from "@/lib/theory/scaleDegree";
import { midiToName, parsePitchName, spellPitchClass } from "@/lib/theory/spelling";
import { midiToPitchClass } from "@/lib/units/pitch";
import type { Midi, PitchClass, Seconds } from "@/lib/units/quantities";

/** A bass note as a number of home, `5` or `b7`. */
export function bassNumber(midi: Midi, key: Key): string {
  const { accidental, degree } = noteToDegree(spellPitchClass(midiToPitchClass(midi), key), key);
  return accidental + degree;
}

/** The note by name, `G2`. */
export function bassName(midi: Midi, key: Key): string {
  return midiToName(midi, key);
}

/** Notes that begin within a stretch, in order. */
export function bassWithin(
  bass: readonly ShownBassNote[],
  span: { startSec: Seconds; endSec: Seconds },
): ShownBassNote[] {
  const slackSec = 0.03;
  return bass.filter(
    ({ startSec }) => startSec >= span.startSec - slackSec && startSec < span.endSec - slackSec,
  );
}

/** What was typed for a bass note: a number of the key (`1` to `7`) or a letter. Null for anything else. */
export function typedPitchClass(typed: string, key: Key): PitchClass | null {
  if (/^[1-7]$/.test(typed)) {
    return midiToPitchClass(parsePitchName(key.tonic).pitchClass + (degreeToSemitones(typed) ?? 0));
  }
  if (!/^[A-Ga-g]$/.test(typed)) return null;
  return parsePitchName(typed.toUpperCase()).pitchClass;
}

/** The pitch of a class that lies nearest to another pitch; of two as near, the lower. */
export function nearestPitch(pitchClass: PitchClass, to: Midi): Midi {
  const up = (((pitchClass - to) % 12) + 12) % 12;
  return up < 6 ? to + up : to + up - 12;
}
