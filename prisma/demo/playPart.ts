import type { Copedent } from "@/lib/instrument/Copedent";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import type { PartEvent } from "@/lib/notation/PartEvent";
import type { PitchPoint } from "@/lib/synth/pitchTrack";
import type { SteelNote } from "@/lib/synth/steelVoice";
import type { Midi, Seconds } from "@/lib/units/quantities";

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

interface SoundingString {
  event: PartEvent;
  midi: Midi;
  startSec: Seconds;
  endSec: Seconds;
  pitch: PitchPoint[];
}

/**
 * Plays a part: one note for every string picked. Slides, presses and releases move the note that still rings on
 * their string; where none rings they are picked. Glides begin on the event's time.
 * Strings whose changes give no dependable pitch, or which the instrument lacks, stay silent.
 */
export function playPart(part: readonly PartEvent[], copedent: Copedent): SteelNote[] {
  const notes: SteelNote[] = [];
  const sounding = new Map<number, SoundingString>();
  const finish = (string: number) => {
    const note = sounding.get(string);
    if (note !== undefined) notes.push(toNote(note));
    sounding.delete(string);
  };
  for (const event of [...part].sort((a, b) => a.startSec - b.startSec)) {
    for (const string of event.strings) {
      const midi = effectiveMidi(copedent, string, event.fret, event.changes);
      const before = sounding.get(string);
      const rings = before !== undefined && event.startSec <= before.endSec + STILL_RINGING_SEC;
      if (midi !== null && rings && event.articulation !== "pick") {
        const frets = Math.abs(event.fret - before.event.fret);
        const glideSec = frets === 0 ? PEDAL_SEC : BAR_SEC + BAR_SEC_PER_FRET * frets;
        before.pitch.push(
          { timeSec: event.startSec, midi: before.midi },
          { timeSec: event.startSec + Math.min(glideSec, event.endSec - event.startSec), midi },
        );
        sounding.set(string, { ...before, event, midi, endSec: event.endSec });
        continue;
      }
      if (before !== undefined) before.endSec = Math.min(before.endSec, event.startSec);
      finish(string);
      if (midi === null) continue;
      const { startSec, endSec } = event;
      sounding.set(string, { event, midi, startSec, endSec, pitch: [{ timeSec: startSec, midi }] });
    }
  }
  for (const string of [...sounding.keys()]) finish(string);
  return notes.sort((a, b) => a.startSec - b.startSec);
}

function toNote({ event, startSec, endSec, pitch }: SoundingString): SteelNote {
  const settledSec = pitch.at(-1)?.timeSec ?? startSec;
  const shaken = event.fret > 0 && endSec - settledSec >= VIBRATO_FROM_SEC;
  return {
    startSec,
    endSec,
    pitch,
    vibrato: shaken
      ? { startSec: settledSec + VIBRATO.delaySec, rateHz: VIBRATO.rateHz, depthCents: VIBRATO.depthCents }
      : null,
    level: NOTE_LEVEL,
    swellSec: endSec - startSec >= SWELL_FROM_SEC ? SWELL_SEC : 0,
  };
}
