import type { Copedent } from "@/lib/instrument/Copedent";
import { allStages } from "@/lib/instrument/stages";
import { fingeredPluck, timbreOf } from "@/lib/synth/fingeredVoice";
import { type PlayedEvent, playPart } from "@/lib/synth/playPart";
import type { BankNote } from "@/lib/synth/StringSet";
import { type SteelNote, steelPluck } from "@/lib/synth/steelPluck";
import type { TimbreName } from "@/lib/synth/timbres";
import type { Cents, Seconds } from "@/lib/units/quantities";

/**
 * The part as the audio thread plays it with the record, by strings as near to its instrument's as there are. Events with a
 * pedal or lever that this copedent lacks are left out: what they would sound on it is not known.
 * @param tuningCents how far the record stands from A4 = 440 Hz
 */
export function partNotes(part: readonly PlayedEvent[], copedent: Copedent, tuningCents: Cents): BankNote[] {
  const known = new Set(allStages(copedent).map(({ id }) => id));
  const playable = part.filter(
    ({ changes, startSec, endSec }) => endSec > startSec && changes.every((id) => known.has(id)),
  );
  return playPart(playable, copedent).map((note) => bankNote(note, timbreOf(copedent), tuningCents));
}

/** The same from now on, whether the record runs or not: the first begins at once. */
export function partNotesNow(
  part: readonly PlayedEvent[],
  copedent: Copedent,
  tuningCents: Cents,
): BankNote[] {
  const firstSec = Math.min(...part.map(({ startSec }) => startSec));
  return partNotes(
    part.map((event) => ({ ...event, startSec: event.startSec - firstSec, endSec: event.endSec - firstSec })),
    copedent,
    tuningCents,
  );
}

function bankNote(note: SteelNote, timbre: TimbreName, tuningCents: Cents): BankNote {
  return {
    id: JSON.stringify([note, timbre, tuningCents]),
    timbre,
    pluck:
      timbre === "steel"
        ? steelPluck(note, tuningCents, scrapeSeed(note.startSec))
        : fingeredPluck(note, tuningCents),
  };
}

/** Any number will do, as long as neighbours differ. */
function scrapeSeed(startSec: Seconds): number {
  return Math.round(startSec * 7919) + 1;
}
