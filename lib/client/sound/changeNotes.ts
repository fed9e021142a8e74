import { bassPluck } from "@/lib/synth/bass";
import type { BankNote } from "@/lib/synth/StringSet";
import { strumPlucks } from "@/lib/synth/strum";
import { parseHarte } from "@/lib/theory/harte";
import { lowestPitch } from "@/lib/units/pitch";
import type { Cents, Midi, Seconds } from "@/lib/units/quantities";

/** A stretch with one chord, in Harte's syntax. */
export interface SoundedChange {
  startSec: Seconds;
  endSec: Seconds;
  label: string;
}

/** E1, the lowest string of a bass, and the D below middle C, about which a guitar's chords lie. */
const BASS_FROM_MIDI: Midi = 28;
const CHORD_FROM_MIDI: Midi = 50;
const BASS_LEVEL = 0.75;
const CHORD_LEVEL = 0.55;
/** Between one stroke and the next, so that they are told apart. */
const GAP_SEC: Seconds = 0.04;

/**
 * Bass and chord for a change, plain: the bass note and the chord's notes in close position, struck together.
 * @param strokesSec when they are struck within the change; each rings until the next, or until the change ends
 * @returns nothing where no chord is played, or the label is none
 */
export function changeNotes(
  change: SoundedChange,
  strokesSec: readonly Seconds[],
  tuningCents: Cents,
): BankNote[] {
  const chord = readChord(change.label);
  if (!chord) return [];
  const bass = lowestPitch(chord.bassPitchClass, BASS_FROM_MIDI);
  const midis = chord.pitchClasses.map((each) => lowestPitch(each, CHORD_FROM_MIDI)).sort((a, b) => a - b);
  return strokesSec.flatMap((startSec, at) => {
    const endSec = Math.max(startSec + GAP_SEC, (strokesSec[at + 1] ?? change.endSec) - GAP_SEC);
    const plucks = [
      {
        timbre: "bass" as const,
        pluck: bassPluck({ startSec, endSec, midi: bass, level: BASS_LEVEL }, tuningCents),
      },
      ...strumPlucks({ startSec, endSec, midis, stroke: "down", level: CHORD_LEVEL }, tuningCents).map(
        (pluck) => ({
          timbre: "guitar" as const,
          pluck,
        }),
      ),
    ];
    return plucks.map((each): BankNote => ({ id: JSON.stringify(each), ...each }));
  });
}

/**
 * The changes as bass and chords along the record, struck where each begins and on the first beat of every bar.
 * @param downbeatsSec in ascending order; none where no beats are known
 */
export function changesAlong(
  changes: readonly SoundedChange[],
  downbeatsSec: readonly Seconds[],
  tuningCents: Cents,
): BankNote[] {
  return changes.flatMap((change) => {
    const within = downbeatsSec.filter((sec) => sec > change.startSec + 0.2 && sec < change.endSec - 0.2);
    return changeNotes(change, [change.startSec, ...within], tuningCents);
  });
}

/** One change from now on, once, or over and over. */
export function changeNow(change: SoundedChange, times: number, tuningCents: Cents): BankNote[] {
  const lengthSec = change.endSec - change.startSec;
  return Array.from({ length: times }, (_, at) => at * lengthSec).flatMap((startSec) =>
    changeNotes({ ...change, startSec, endSec: startSec + lengthSec }, [startSec], tuningCents),
  );
}

function readChord(label: string) {
  try {
    return parseHarte(label);
  } catch {
    return null;
  }
}
