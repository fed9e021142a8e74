import type { Midi } from "@/lib/units/quantities";
import { binOf, loudestNear, type PassageSpectra } from "./PassageSpectra";

/** What speaks for or against a note sounding in a passage, by name. */
export type NoteEvidence = Record<string, number>;

const PARTIALS = [1, 2, 3, 4, 5, 6, 7, 8];
/** Places between the partials of a note at which a lower one would show that this is a partial of. */
const BETWEEN = [
  [1, 2],
  [3, 2],
  [5, 2],
  [7, 2],
  [1, 3],
  [2, 3],
  [4, 3],
  [5, 3],
] as const;
const FLOOR = 0.01;
const STANDING_FLOOR = 0.05;
const STANDS_FROM = 0.3;
/** A peak counts as no sharper than this, nats. */
const SHARPEST = 2;

/**
 * The evidence of one note, from how the passage adds up from notes (`heard...`, `needed`), from the notes that it might
 * be taken for (a partial of lower ones, neighbours that spread), and from its own partials: how they stand out of their
 * surroundings (`stands`), whether each is a peak of its own (`peak`), and whether what lies between them betrays a lower
 * note (`between`), as in the subharmonic tests of A. Klapuri ("Multiple fundamental frequency estimation based on
 * harmonicity and spectral smoothness", IEEE TSAP 11, 2003). Natural logs, but for shares and seconds.
 */
export function noteEvidence(passage: PassageSpectra, midi: Midi): NoteEvidence {
  const log = (value: number) => Math.log(value + FLOOR);
  const mean = (note: Midi) => passage.heard(note).mean;
  const own = passage.heard(midi);
  const rise = passage.rise(midi);
  const { standing, lasting } = passage;
  const stands = (multiple: number) => loudestNear(standing, binOf(midi, multiple));
  const loud = (multiple: number) => loudestNear(lasting, binOf(midi, multiple));
  const peak = (multiple: number) => sharpness(lasting, binOf(midi, multiple));
  const peaks = PARTIALS.map(peak);
  const standings = PARTIALS.map(stands);
  const [s1, s2, s3, s4, s5, s6] = standings as [number, number, number, number, number, number];
  const evidence: NoteEvidence = {
    heard: log(own.mean),
    heardBest: log(own.best),
    heardFilled: own.filled,
    heardOfLoudest: Math.log((own.mean + FLOOR) / passage.loudest),
    lasting: log(passage.lastingActivation(midi)),
    needed: Math.log(Math.max(0, passage.needed(midi)) + 0.003),
    octaveBelow: log(mean(midi - 12)),
    twelfthBelow: log(Math.max(mean(midi - 19), mean(midi - 24))),
    octaveAbove: log(mean(midi + 12)),
    twelfthAbove: log(mean(midi + 19)),
    halfStepOff: log(Math.max(mean(midi - 1), mean(midi + 1))),
    wholeStepOff: log(Math.max(mean(midi - 2), mean(midi + 2))),
    standingShare: standings.slice(0, 6).filter((value) => value > STANDS_FROM).length / 6,
    leastStands: Math.log(Math.min(s1, s2, s3) + STANDING_FLOOR),
    peaks: peaks.slice(0, 5).reduce((sum, value) => sum + value, 0) / 5,
    rise: rise.nats,
    riseFirst: rise.firstNats,
    riseOffSec: Math.abs(rise.atSec),
    oddPartials: Math.log((s1 + s3 + s5 + STANDING_FLOOR) / (s2 + s4 + s6 + STANDING_FLOOR)),
    level: Math.log([1, 2, 3, 4].reduce((sum, k) => sum + loud(k), 0) + 1e-5),
    octaves: (midi - 60) / 12,
  };
  PARTIALS.forEach((k, i) => {
    evidence[`stands${k}`] = Math.log(standings[i]! + STANDING_FLOOR);
    evidence[`peak${k}`] = peaks[i]!;
  });
  for (const [a, b] of BETWEEN) {
    evidence[`standsAt${a}/${b}`] = Math.log(stands(a / b) + STANDING_FLOOR);
    evidence[`peakAt${a}/${b}`] = peak(a / b);
  }
  return evidence;
}

/** How far a place is louder than those a semitone off, in nats. */
function sharpness(spectrum: Float64Array, place: number): number {
  if (place < 3 || place > spectrum.length - 4) return 0;
  const centre = loudestNear(spectrum, place, 1.1);
  const beside = Math.max(loudestNear(spectrum, place - 3, 0.6), loudestNear(spectrum, place + 3, 0.6));
  return Math.min(SHARPEST, Math.max(-SHARPEST, Math.log((centre + 1e-5) / (beside + 1e-5))));
}
