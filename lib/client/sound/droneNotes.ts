import type { BankNote } from "@/lib/synth/StringSet";
import { parsePitchName } from "@/lib/theory/spelling";
import { lowestPitch } from "@/lib/units/pitch";
import type { Cents, Midi } from "@/lib/units/quantities";

/** E2: the drone's lowest note lies in the octave from here. */
const FROM_MIDI: Midi = 40;
/** Home, its fifth and its octave, so that it is home in major as in minor. */
const VOICES = [
  { semitones: 0, level: 0.3 },
  { semitones: 7, level: 0.14 },
  { semitones: 12, level: 0.2 },
] as const;
const ATTACK_SEC = 0.35;

/** A drone on home that sounds until it is told to stop. @param tonic as spelled, as in `Bb` */
export function droneNotes(tonic: string, tuningCents: Cents): BankNote[] {
  const { pitchClass } = parsePitchName(tonic);
  const lowest = lowestPitch(pitchClass, FROM_MIDI);
  return VOICES.map(({ semitones, level }) => ({
    id: `${tonic} ${tuningCents} ${semitones}`,
    timbre: "drone",
    pluck: {
      startSec: 0,
      endSec: Number.POSITIVE_INFINITY,
      pitch: [{ timeSec: 0, midi: lowest + semitones }],
      vibrato: null,
      attackSec: ATTACK_SEC,
      ending: "letGo",
      ...{ level, tuningCents, opening: 0, openingSec: 0, scrape: 0, scrapeSeed: 0 },
    },
  }));
}
