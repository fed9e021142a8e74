import type { Copedent } from "@/lib/instrument/Copedent";
import { effectiveMidi, stoppedPitches } from "@/lib/instrument/effectivePitch";
import type { PartEvent } from "@/lib/notation/PartEvent";
import { soundedEnd, stillRings } from "@/lib/notation/soundedEnd";
import { HARMONIC_SEMITONES } from "@/lib/notation/soundingPitches";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { type PitchPoint, pitchAt, type Vibrato } from "./pitchTrack";
import type { SteelNote } from "./steelPluck";

/** How long pedals take, and the bar from one fret to the next and over each further one. */
const PEDAL_SEC: Seconds = 0.13;
const BAR_SEC: Seconds = 0.12;
const BAR_SEC_PER_FRET: Seconds = 0.018;
/** Notes shorter than this are not shaken. */
const VIBRATO_FROM_SEC: Seconds = 0.7;
const VIBRATO = { delaySec: 0.35, rateHz: 5.6, depthCents: 9 };
/** Where the part asks for it, the hand shakes sooner and wider, however short the note. */
const WRITTEN_VIBRATO = { delaySec: 0.1, rateHz: 5.6, depthCents: 20 };
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
  /** A string that was touched as a harmonic stays one until it is picked anew. */
  isHarmonic: boolean;
  /** From where to where it is written that the hand shakes. */
  shaken: { startSec: Seconds; endSec: Seconds } | null;
  isPickedNext: boolean;
}

/**
 * Plays a part on any instrument: one note for every string picked, in order of time. Slides, presses and releases move
 * the note that still rings on their string, and ties let it ring; where none rings they are picked. A pedal pulls its
 * strings wherever they ring on, those that its event does not name too. Glides begin on the event's time. A string that is
 * picked anew at once is stopped by the pick, others by the hand; what is blocked is stopped before its time. A
 * harmonic sounds an octave higher until its string is picked anew. One pick is shaken once: from where that is
 * written first to where it is written last.
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
    const { startSec, articulation } = event;
    const endSec = soundedEnd(event);
    const pitches = stoppedPitches(copedent, event);
    for (const [at, string] of event.strings.entries()) {
      const held = pitches[at] ?? null;
      const fret = event.frets?.[at] ?? event.fret;
      const before = sounding.get(string);
      const rings = before !== undefined && stillRings(before.endSec, startSec);
      const shaken = fret > 0 && event.techniques?.includes("vibrato") ? { startSec, endSec } : null;
      if (held !== null && rings && articulation !== "pick") {
        const midi = soundingMidi(held, before.isHarmonic);
        if (articulation !== "tie" || midi !== before.midi)
          glide(before, midi, event, Math.abs(fret - before.fret));
        Object.assign(before, { fret, endSec, shaken: joined(before.shaken, shaken) });
        continue;
      }
      if (before !== undefined) {
        before.isPickedNext = held !== null && rings;
        before.endSec = Math.min(before.endSec, startSec);
      }
      finish(string);
      if (held === null) continue;
      const isHarmonic = event.techniques?.includes("harmonic") ?? false;
      const midi = soundingMidi(held, isHarmonic);
      const pitch = [{ timeSec: startSec, midi }];
      const began = { string, fret, midi, startSec, endSec, pitch };
      sounding.set(string, { ...began, isHarmonic, shaken, isPickedNext: false });
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
    const held = effectiveMidi(copedent, other.string, other.fret, event.changes);
    const midi = held === null ? other.midi : soundingMidi(held, other.isHarmonic);
    if (midi !== other.midi) glide(other, midi, event, 0);
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

function soundingMidi(held: Midi, isHarmonic: boolean): Midi {
  return isHarmonic ? held + HARMONIC_SEMITONES : held;
}

/** One shake that holds both. */
function joined(one: SoundingString["shaken"], other: SoundingString["shaken"]): SoundingString["shaken"] {
  if (!one || !other) return one ?? other;
  return { startSec: one.startSec, endSec: Math.max(one.endSec, other.endSec) };
}

function vibratoOf({ fret, startSec, endSec, pitch, shaken }: SoundingString): Vibrato | null {
  if (shaken) {
    const { delaySec, ...written } = WRITTEN_VIBRATO;
    const until = shaken.endSec < endSec ? { endSec: shaken.endSec } : {};
    return { startSec: shaken.startSec + delaySec, ...written, ...until };
  }
  const settledSec = pitch.at(-1)?.timeSec ?? startSec;
  if (fret === 0 || endSec - settledSec < VIBRATO_FROM_SEC) return null;
  const { delaySec, ...usual } = VIBRATO;
  return { startSec: settledSec + delaySec, ...usual };
}

function toNote(note: SoundingString): SteelNote {
  const { startSec, endSec, pitch, isPickedNext } = note;
  return {
    startSec,
    endSec,
    pitch,
    vibrato: vibratoOf(note),
    level: NOTE_LEVEL,
    swellSec: endSec - startSec >= SWELL_FROM_SEC ? SWELL_SEC : 0,
    ending: isPickedNext ? "pick" : "palm",
  };
}
