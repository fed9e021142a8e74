import type { Copedent } from "@/lib/instrument/Copedent";
import { effectiveMidi, stoppedPitches } from "@/lib/instrument/effectivePitch";
import type { PartEvent } from "@/lib/notation/PartEvent";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { type PitchPoint, pitchAt } from "./pitchTrack";
import type { SteelNote } from "./steelVoice";

/** How long pedals take, and the bar from one fret to the next and over each further one. */
const PEDAL_SEC: Seconds = 0.13;
const BAR_SEC: Seconds = 0.12;
const BAR_SEC_PER_FRET: Seconds = 0.018;
/** A note that ended this little ago still rings for what moves it. */
const STILL_RINGING_SEC: Seconds = 0.03;
/** Notes shorter than this are not shaken. */
const VIBRATO_FROM_SEC: Seconds = 0.7;
const VIBRATO = { delaySec: 0.35, rateHz: 5.6, depthCents: 9 };
/** The volume pedal lifts long picks in. */
const SWELL_FROM_SEC: Seconds = 1;
const SWELL_SEC: Seconds = 0.035;
const NOTE_LEVEL = 0.5;

/** A part event as far as it is to be heard. */
export type PlayedEvent = Omit<PartEvent, "id">;

interface SoundingString {
  string: number;
  fret: number;
  midi: Midi;
  startSec: Seconds;
  endSec: Seconds;
  pitch: PitchPoint[];
  isPickedNext: boolean;
}

/**
 * Plays a part on any instrument: one note for every string picked, in order of time. Slides, presses and releases move
 * the note that still rings on their string; where none rings they are picked. A pedal pulls its strings wherever they ring
 * on, those that its event does not name too. Glides begin on the event's time. A string that is picked anew at once
 * is stopped by the pick, others by the hand.
 * Strings whose changes give no dependable pitch, or which the instrument lacks, stay silent.
 * @throws UnknownChangeError on a pedal or lever that the copedent lacks
 */
export function playPart(part: readonly PlayedEvent[], copedent: Copedent): SteelNote[] {
  const notes: SteelNote[] = [];
  const sounding = new Map<number, SoundingString>();
  const finish = (string: number) => {
    const note = sounding.get(string);
    if (note !== undefined) notes.push(toNote(note));
    sounding.delete(string);
  };
  for (const event of [...part].sort((a, b) => a.startSec - b.startSec)) {
    const { startSec, endSec, articulation } = event;
    const pitches = stoppedPitches(copedent, event);
    for (const [at, string] of event.strings.entries()) {
      const midi = pitches[at] ?? null;
      const fret = event.frets?.[at] ?? event.fret;
      const before = sounding.get(string);
      const rings = before !== undefined && startSec <= before.endSec + STILL_RINGING_SEC;
      if (midi !== null && rings && articulation !== "pick") {
        glide(before, midi, event, Math.abs(fret - before.fret));
        Object.assign(before, { fret, endSec });
        continue;
      }
      if (before !== undefined) {
        before.isPickedNext = midi !== null && rings;
        before.endSec = Math.min(before.endSec, startSec);
      }
      finish(string);
      if (midi === null) continue;
      const pitch = [{ timeSec: startSec, midi }];
      sounding.set(string, { string, fret, midi, startSec, endSec, pitch, isPickedNext: false });
    }
    if (articulation !== "pick") pullOthers(copedent, event, sounding);
  }
  for (const string of [...sounding.keys()]) finish(string);
  return notes.sort((a, b) => a.startSec - b.startSec);
}

/** What rings on beside the strings that an event names, and is pulled by its pedals. */
function pullOthers(copedent: Copedent, event: PlayedEvent, sounding: ReadonlyMap<number, SoundingString>) {
  for (const other of sounding.values()) {
    if (event.strings.includes(other.string) || other.endSec <= event.startSec) continue;
    const midi = effectiveMidi(copedent, other.string, other.fret, event.changes);
    if (midi !== null && midi !== other.midi) glide(other, midi, event, 0);
  }
}

/** @param frets that the bar moves by; 0 where only pedals do */
function glide(note: SoundingString, midi: Midi, { startSec, endSec }: PlayedEvent, frets: number): void {
  const glideSec = frets === 0 ? PEDAL_SEC : BAR_SEC + BAR_SEC_PER_FRET * frets;
  const fromMidi = pitchAt(note.pitch, startSec);
  // What was still on its way is overtaken.
  while (note.pitch.length > 1 && note.pitch.at(-1)!.timeSec > startSec) note.pitch.pop();
  note.pitch.push(
    { timeSec: startSec, midi: fromMidi },
    { timeSec: startSec + Math.min(glideSec, endSec - startSec), midi },
  );
  note.midi = midi;
}

function toNote({ fret, startSec, endSec, pitch, isPickedNext }: SoundingString): SteelNote {
  const settledSec = pitch.at(-1)?.timeSec ?? startSec;
  const shaken = fret > 0 && endSec - settledSec >= VIBRATO_FROM_SEC;
  return {
    startSec,
    endSec,
    pitch,
    vibrato: shaken
      ? { startSec: settledSec + VIBRATO.delaySec, rateHz: VIBRATO.rateHz, depthCents: VIBRATO.depthCents }
      : null,
    level: NOTE_LEVEL,
    swellSec: endSec - startSec >= SWELL_FROM_SEC ? SWELL_SEC : 0,
    ending: isPickedNext ? "pick" : "palm",
  };
}
