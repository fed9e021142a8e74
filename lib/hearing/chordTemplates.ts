import { CHORD_STATES, type ChordState } from "./chordVocabulary";
import type { StretchChroma } from "./chroma";
import { CHORD_FIT, VOCABULARY } from "./harmonyParameters";

interface Template {
  treble: Float64Array;
  bass: Float64Array;
  /** Nats taken off in every stretch, for what is rarer than its fit suggests. */
  cost: number;
  learnedOnly: boolean;
}

/**
 * Log-likelihood of each chord state in each stretch, up to a constant: the cosines between its treble and
 * bass chroma and the templates of the chord, times their weights. Templates of treble and bass as in
 * M. Mauch and S. Dixon, "Simultaneous estimation of chords and musical context from audio", IEEE TASLP 18
 * (2010); for chroma of unit length the cosine is their Gaussian distance.
 * @param allQualities whether the qualities that only a learned ear tells apart may be heard
 * @returns one row a stretch, one value a state of CHORD_STATES
 */
export function chordLikelihoods(stretches: StretchChroma[], allQualities: boolean): Float64Array[] {
  const templates = CHORD_STATES.map(templateOf);
  const loudest = stretches.reduce((peak, { level }) => Math.max(peak, level), 0);
  return stretches.map(({ treble, bass, level }) => {
    const silent = level <= loudest * CHORD_FIT.silenceShare;
    return Float64Array.from(templates, (template, state) => {
      if (state === 0) return silent ? CHORD_FIT.trebleWeight : noChordFit(treble, bass);
      if (silent) return 0;
      if (template.learnedOnly && !allQualities) return CHORD_FIT.outOfReach;
      return (
        CHORD_FIT.trebleWeight * dot(treble, template.treble) +
        CHORD_FIT.bassWeight * dot(bass, template.bass) -
        template.cost
      );
    });
  });
}

/** No chord fits flat chroma, as of drums, and its bass may be anything. */
function noChordFit(treble: Float64Array, bass: Float64Array): number {
  const flat = 1 / Math.sqrt(12);
  const sum = (chroma: Float64Array): number => chroma.reduce((total, value) => total + value * flat, 0);
  return (
    CHORD_FIT.trebleWeight * CHORD_FIT.noChordTreble * sum(treble) +
    CHORD_FIT.bassWeight * CHORD_FIT.noChordBass * sum(bass)
  );
}

function templateOf(state: ChordState): Template {
  const treble = new Float64Array(12);
  const bass = new Float64Array(12);
  if (state.chord) {
    const { root, type } = state.chord;
    type.semitones.forEach((semitones, place) => {
      treble[(root + semitones) % 12] = CHORD_FIT.trebleTones[place] ?? 0;
      bass[(root + semitones) % 12] = CHORD_FIT.bassTones[place] ?? 0;
    });
  }
  const quality = state.chord?.type.quality ?? "";
  const cost = CHORD_FIT.costs[quality] ?? 0;
  return {
    treble: unit(treble),
    bass: unit(bass),
    cost,
    learnedOnly: VOCABULARY.learnedOnly.includes(quality),
  };
}

function unit(vector: Float64Array): Float64Array {
  const norm = Math.hypot(...vector);
  return norm > 0 ? vector.map((value) => value / norm) : vector;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
