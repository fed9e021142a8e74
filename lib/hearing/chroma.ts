import type { Seconds } from "@/lib/units/quantities";
import type { PitchSpectra } from "./evidence";
import { NoteActivation } from "./noteActivation";
import { CHROMA } from "./parameters";

/** The pitch content of one stretch of the record. */
export interface StretchChroma {
  startSec: Seconds;
  endSec: Seconds;
  /** Length 12 from C, unit length, or all 0 in silence. */
  treble: Float64Array;
  bass: Float64Array;
  /** Mean magnitude over the spectrum, full scale about 1. */
  level: number;
}

/**
 * Bass and treble chroma of each stretch between neighbouring times: the geometric mean of its spectra, which
 * keeps what lasts and drops strokes of drum and pick, is transcribed ({@link NoteActivation}) and the notes are folded into pitch classes under two profiles over
 * pitch (Mauch & Dixon 2010, after M. Mauch, "Automatic chord transcription from audio using computational
 * models of musical context", PhD thesis, Queen Mary 2010).
 * @param edgesSec rising; n + 1 edges give n stretches
 */
export function stretchChroma(
  spectra: PitchSpectra,
  edgesSec: Seconds[],
  onStretch?: (index: number, count: number) => void,
): StretchChroma[] {
  const activation = new NoteActivation(spectra.scale);
  const { frames, frameRateHz } = spectra;
  const mean = new Float64Array(frames.width);
  const result: StretchChroma[] = [];
  for (let i = 0; i + 1 < edgesSec.length; i++) {
    onStretch?.(i, edgesSec.length - 1);
    const startSec = edgesSec[i]!;
    const endSec = edgesSec[i + 1]!;
    const first = Math.min(frames.rows - 1, Math.max(0, Math.ceil(startSec * frameRateHz)));
    const last = Math.min(frames.rows, Math.max(first + 1, Math.ceil(endSec * frameRateHz)));
    mean.fill(0);
    for (let f = first; f < last; f++) {
      const row = frames.row(f);
      for (let k = 0; k < mean.length; k++) mean[k]! += Math.log(row[k]! + CHROMA.silence);
    }
    let level = 0;
    for (let k = 0; k < mean.length; k++) {
      mean[k] = Math.exp(mean[k]! / (last - first)) - CHROMA.silence;
      level += mean[k]! / mean.length;
    }
    const notes = level > CHROMA.silence ? activation.solve(mean) : new Float64Array(activation.noteCount);
    result.push({ startSec, endSec, ...foldChroma(notes, activation.lowestMidi), level });
  }
  return result;
}

/**
 * Notes folded into pitch classes, twice.
 * @param notes how much there is of each, a semitone apart
 * @param lowestMidi pitch of the first
 */
export function foldChroma(notes: Float64Array, lowestMidi: number): Pick<StretchChroma, "treble" | "bass"> {
  return {
    treble: fold(notes, lowestMidi, trebleWeight),
    bass: fold(notes, lowestMidi, bassWeight),
  };
}

function fold(notes: Float64Array, lowestMidi: number, weight: (midi: number) => number): Float64Array {
  const chroma = new Float64Array(12);
  for (let n = 0; n < notes.length; n++) {
    const midi = lowestMidi + n;
    chroma[midi % 12]! += weight(midi) * notes[n]! ** CHROMA.compression;
  }
  const norm = Math.hypot(...chroma);
  return norm > 0 ? chroma.map((value) => value / norm) : chroma;
}

/** 0 at `from`, 1 at `to`, on a straight line between. */
function ramp(value: number, from: number, to: number): number {
  return Math.max(0, Math.min(1, (value - from) / (to - from)));
}

function bassWeight(midi: number): number {
  return 1 - ramp(midi, CHROMA.bassFullTo, CHROMA.bassEnd);
}

function trebleWeight(midi: number): number {
  const rise = ramp(midi, CHROMA.trebleStart, CHROMA.trebleFullFrom);
  return rise * (1 - ramp(midi, CHROMA.trebleFullTo, CHROMA.trebleEnd));
}
