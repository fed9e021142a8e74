import type { HeardNote } from "../Hearing";

/**
 * The same note in numbers as fine as anyone hears, milliseconds, cents and percents: thousands of them are stored
 * and sent.
 */
export function roundNote(note: HeardNote): HeardNote {
  return {
    startSec: toMs(note.startSec),
    endSec: toMs(note.endSec),
    midi: toHundredth(note.midi),
    confidence: toHundredth(note.confidence),
    steel: toHundredth(note.steel),
    glides: note.glides.map(({ kind, toMidi, atSec, durationSec }) => ({
      kind,
      toMidi: toHundredth(toMidi),
      atSec: toMs(atSec),
      durationSec: toMs(durationSec),
    })),
  };
}

function toMs(valueSec: number): number {
  return Math.round(valueSec * 1000) / 1000;
}

function toHundredth(value: number): number {
  return Math.round(value * 100) / 100;
}
