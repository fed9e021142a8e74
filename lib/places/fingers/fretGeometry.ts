import type { Copedent } from "@/lib/instrument/Copedent";

/** Vibrating length of the full strings, in millimetres: usual makes (common practice, no source). */
const SCALE_MM = { bass: 864, guitar: 648, mandolin: 352 } as const;
/** Lowest full string at or below A1: a bass. At or above E3: of the mandolin's size. MIDI numbers. */
const BASS_LOWEST = 33;
const MANDOLIN_LOWEST = 52;

/** How long the strings are, by how low the instrument is tuned: charts do not tell. Millimetres. */
export function scaleMm({ strings }: Copedent): number {
  const full = strings.filter(({ beginsAtFret = 0 }) => beginsAtFret === 0);
  const lowest = Math.min(...full.map(({ openMidi }) => openMidi));
  if (lowest <= BASS_LOWEST) return SCALE_MM.bass;
  return lowest >= MANDOLIN_LOWEST ? SCALE_MM.mandolin : SCALE_MM.guitar;
}

/** Frets that the four fingers stand over unstretched: one a finger, on short strings two (common practice, no source). */
export function fretsUnderHand(scale: number): number {
  return scale <= SCALE_MM.mandolin ? 7 : 4;
}

/** From one fret to another along the neck, in millimetres, by equal temperament. */
export function fretDistanceMm(scale: number, fromFret: number, toFret: number): number {
  return scale * Math.abs(2 ** (-fromFret / 12) - 2 ** (-toFret / 12));
}
