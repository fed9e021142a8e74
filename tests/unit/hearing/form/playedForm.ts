import { CHORD_STATES } from "@/lib/hearing/chordVocabulary";
import type { FormEvidence } from "@/lib/hearing/form/sections";
import type { HeardBeat } from "@/lib/hearing/Hearing";

/** Phrases in numbers of C, a bar each; small ones are minor. Two chords in a bar are joined by a plus sign. */
export const PHRASES: Readonly<Record<string, string>> = {
  verse: "1 1 4 1 1 6m 4+5 1",
  chorus: "4 5 1 6m 4 5 1 1",
  bridge: "3m 6m 3m 6m 2 2 5 5",
  blues: "1 1 1 1 4 4 1 1 5 4 1 5",
  intro: "1 4 1 5",
  turnaround: "5 5",
  ending: "4 5 1 1",
};
const DEGREES = [0, 2, 4, 5, 7, 9, 11];

interface Playing {
  /** Phrases in order, each with the semitones that it is played higher. */
  phrases: readonly (readonly [name: string, semitones?: number])[];
  beatsPerBar?: number;
  /** Beats before the first downbeat. */
  pickupBeats?: number;
  /** Bars of which the ear is told another chord, and how sure it is of that. */
  misheard?: readonly number[];
  /** Probability of the chord that is played. */
  sure?: number;
}

export const BEAT_SEC = 0.5;

/** What an ear would hear of phrases played: a stretch a beat. */
export function played({
  phrases,
  beatsPerBar = 4,
  pickupBeats = 0,
  misheard = [],
  sure = 0.9,
}: Playing): FormEvidence {
  const bars = phrases.flatMap(([name, semitones = 0]) =>
    PHRASES[name]!.split(" ").map((bar) => bar.split("+").map((number) => stateOf(number, semitones))),
  );
  for (const bar of misheard) bars[bar] = [stateOf("7m", bar % 12)];
  const states = [
    ...Array.from({ length: pickupBeats }, () => stateOf("5", 0)),
    ...bars.flatMap((bar) =>
      Array.from({ length: beatsPerBar }, (_, beat) => bar[Math.floor((beat * bar.length) / beatsPerBar)]!),
    ),
  ];
  const beats = states.map((_, i): HeardBeat => {
    const inBar = ((((i - pickupBeats) % beatsPerBar) + beatsPerBar) % beatsPerBar) + 1;
    return { timeSec: i * BEAT_SEC, inBar };
  });
  return {
    grid: { beats, beatsPerBar },
    certain: states.map((state) =>
      Float64Array.from(CHORD_STATES, (_, s) =>
        s === state ? sure : (1 - sure) / (CHORD_STATES.length - 1),
      ),
    ),
    edgesSec: [...beats.map(({ timeSec }) => timeSec), states.length * BEAT_SEC],
    durationSec: states.length * BEAT_SEC,
  };
}

function stateOf(number: string, semitones: number): number {
  const root = (DEGREES[Number(number[0]) - 1]! + semitones) % 12;
  const quality = number.endsWith("m") ? "min" : "maj";
  return CHORD_STATES.findIndex(({ chord }) => chord?.root === root && chord.type.quality === quality);
}
