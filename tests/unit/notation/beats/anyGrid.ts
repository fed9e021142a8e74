import fc from "fast-check";
import type { BeatGrid } from "@/lib/notation/barGrid";

/** Grids as the shared song may hold them: an uneven pulse, metres that change, a pickup now and then. */
export const anyGrid: fc.Arbitrary<BeatGrid> = fc
  .record({
    startSec: fc.double({ min: 0, max: 5, noNaN: true }),
    paces: fc.array(fc.double({ min: 0.25, max: 1.5, noNaN: true }), { minLength: 1, maxLength: 40 }),
    metres: fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 48, maxLength: 48 }),
    pickup: fc.integer({ min: 0, max: 3 }),
  })
  .map(({ startSec, paces, metres, pickup }) => {
    const beatsSec = [startSec];
    for (const pace of paces) beatsSec.push((beatsSec.at(-1) ?? 0) + pace);
    const places = metres.flatMap((metre) => Array.from({ length: metre }, (_, index) => index + 1));
    const inBar = places.slice(pickup, pickup + beatsSec.length);
    return { beatsSec, inBar, beatsPerBar: Math.max(...inBar) };
  });

/** Beats of half a second from 0, in bars of these lengths. */
export function gridOf(...bars: number[]): BeatGrid {
  const inBar = bars.flatMap((length) => Array.from({ length }, (_, index) => index + 1));
  return { beatsSec: inBar.map((_, beat) => beat / 2), inBar, beatsPerBar: Math.max(...bars) };
}

/** Lengths of the bars in beats, the last as far as the grid goes; a pickup is counted. */
export function barLengths({ inBar }: BeatGrid): number[] {
  const openings = inBar.flatMap((place, beat) =>
    beat === 0 || place === 1 || place <= inBar[beat - 1]! ? [beat] : [],
  );
  return openings.map((opening, index) => (openings[index + 1] ?? inBar.length) - opening);
}
