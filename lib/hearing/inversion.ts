import type { ChordRun } from "./changes";
import { CHORD_STATES } from "./chordVocabulary";
import type { StretchChroma } from "./chroma";
import { type StretchPosterior, sureBass } from "./learned/chordPosteriors";
import { INVERSION } from "./parameters";

/**
 * Degree of the chord tone that lies in the bass through a run, `1` where that is the root, where no tone stays,
 * or where root and another tone alternate, as basses do.
 */
export function bassDegree(run: ChordRun, stretches: StretchChroma[]): string {
  const chord = CHORD_STATES[run.state]!.chord;
  if (!chord) return "1";
  const { root, type } = chord;
  const strength = type.semitones.map((semitones) => {
    let sum = 0;
    let led = 0;
    for (let i = run.from; i < run.to; i++) {
      const bass = stretches[i]!.bass;
      const here = bass[(root + semitones) % 12]!;
      sum += here;
      if (here >= Math.max(...bass)) led += 1;
    }
    const length = run.to - run.from;
    return { mean: sum / length, leads: led / length };
  });
  let best = 0;
  strength.forEach(({ mean }, place) => {
    if (mean > strength[best]!.mean) best = place;
  });
  const held = strength[best]!;
  const clear = held.leads >= INVERSION.leadShare && held.mean >= INVERSION.overRoot * strength[0]!.mean;
  return best > 0 && clear ? type.degrees[best]! : "1";
}

/** The same by what a learned ear hears in the bass. */
export function learnedBassDegree(run: ChordRun, posteriors: readonly StretchPosterior[]): string {
  const chord = CHORD_STATES[run.state]!.chord;
  const bass = sureBass(posteriors.slice(run.from, run.to));
  if (!chord || bass === null) return "1";
  const place = chord.type.semitones.findIndex((semitones) => (chord.root + semitones) % 12 === bass);
  return place > 0 ? chord.type.degrees[place]! : "1";
}
