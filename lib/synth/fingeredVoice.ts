import type { Copedent } from "@/lib/instrument/Copedent";
import type { Cents, Midi, Seconds } from "@/lib/units/quantities";
import type { Pluck } from "./Pluck";
import { type SteelNote, steelPluck } from "./steelPluck";
import type { TimbreName } from "./timbres";

const ATTACK_SEC: Seconds = 0.002;
/** The highest string of a bass lies below this, those of guitars, banjos and mandolins above (A2). */
const BASS_BELOW_MIDI: Midi = 45;

/**
 * By which of our strings an instrument sounds: the steel where a bar stops the strings, a bass where all of them are low,
 * otherwise a plucked guitar's. There is no bow among them: a fiddle is plucked too.
 */
export function timbreOf({ stoppedBy, strings }: Pick<Copedent, "stoppedBy" | "strings">): TimbreName {
  if (stoppedBy === "bar") return "steel";
  return strings.every(({ openMidi }) => openMidi < BASS_BELOW_MIDI) ? "bass" : "guitar";
}

/** A note as a string under fingers plays it: plucked, without the foot that holds a steel's chord or swells it in. */
export function fingeredPluck(note: SteelNote, tuningCents: Cents): Pluck {
  return {
    ...steelPluck({ ...note, swellSec: 0 }, tuningCents, 0),
    attackSec: ATTACK_SEC,
    ending: note.ending === "pick" ? "pick" : "letGo",
    ...{ opening: 0, openingSec: 0, scrape: 0 },
  };
}
