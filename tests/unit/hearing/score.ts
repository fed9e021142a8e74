import { CHORD_STATES } from "@/lib/hearing/chordVocabulary";
import type { StretchChroma } from "@/lib/hearing/chroma";
import { cutAtBeats, type Stretches } from "@/lib/hearing/stretches";
import { parseHarte } from "@/lib/theory/harte";

/** Beats half a second apart, in bars of four, from 0; a record as long as they last. */
export function evenBars(beats: number, division: 2 | 3 = 2): Stretches {
  const beatsSec = Array.from({ length: beats }, (_, i) => i / 2);
  const bars = { inBar: beatsSec.map((_, i) => (i % 4) + 1), beatsPerBar: 4 };
  return cutAtBeats(beatsSec, bars, beats / 2, division);
}

/** The state of a label without bass. */
export function stateOf(label: string): number {
  const chord = parseHarte(label);
  if (!chord) return 0;
  const state = CHORD_STATES.findIndex(
    ({ chord: other }) => other?.root === chord.rootPitchClass && other.type.quality === chord.quality,
  );
  if (state < 0) throw new RangeError(`The ear knows no ${label}.`);
  return state;
}

/** A label from a moment on, counted in beats. */
export type Written = readonly [fromBeat: number, label: string];

/** The label that sounds in the middle of each stretch. */
export function labelsIn({ edgesSec }: Stretches, written: readonly Written[]): string[] {
  return edgesSec.slice(1).map((end, i) => {
    const beat = end + edgesSec[i]!;
    return written.findLast(([from]) => from <= beat)![1];
  });
}

/** Log-likelihoods that speak for the chord that sounds, by `nats` a stretch. */
export function speakingFor(labels: readonly string[], nats: number): Float64Array[] {
  return labels.map((label) => {
    const row = new Float64Array(CHORD_STATES.length);
    row[stateOf(label)] = nats;
    return row;
  });
}

/** The notes of the chords, nothing else, as chroma; the bass as the label has it. */
export function chromaOf({ edgesSec }: Stretches, labels: readonly string[]): StretchChroma[] {
  return labels.map((label, i) => {
    const chord = parseHarte(label);
    const treble = new Float64Array(12);
    const bass = new Float64Array(12);
    for (const pitchClass of chord?.pitchClasses ?? []) {
      treble[pitchClass] = 1 / Math.sqrt(chord!.pitchClasses.length);
    }
    if (chord) bass[chord.bassPitchClass] = 1;
    return { startSec: edgesSec[i]!, endSec: edgesSec[i + 1]!, treble, bass, level: 1 };
  });
}

/** Certainty about each of so many states: all on one. */
export function sureOf(state: number, count: number, stretches: number): Float64Array[] {
  const row = new Float64Array(count);
  row[state] = 1;
  return Array.from({ length: stretches }, () => row);
}
