import { describe, expect, it } from "vitest";
import { barsOf, chordsInBars } from "@/lib/hearing/form/barChords";
import { BarLikeness } from "@/lib/hearing/form/barLikeness";
import { played } from "./playedForm";

function likenessOf(...names: (readonly [name: string, semitones?: number])[]): BarLikeness {
  const { grid, certain, edgesSec, durationSec } = played({ phrases: names });
  return new BarLikeness(chordsInBars(certain, edgesSec, barsOf(grid.beats, durationSec), grid.beatsPerBar));
}

describe("how alike bars are", () => {
  it("a rare chord in common says more than a common one, and another chord speaks against it", () => {
    // Bars of the verse: 1 1 4 1 1 6m 4+5 1, twice.
    const likeness = likenessOf(["verse"], ["verse"]);
    const [common, rare] = [likeness.ofRun(8, 0, 1, 0), likeness.ofRun(13, 5, 1, 0)];
    expect(rare).toBeGreaterThan(1.5 * common);
    expect(common).toBeGreaterThan(0);
    expect(likeness.ofRun(13, 2, 1, 0)).toBeLessThan(0);
  });

  it("is 1 on the average for bars and themselves, and sums over runs", () => {
    const likeness = likenessOf(["verse"], ["bridge"]);
    expect(likeness.ofRun(0, 0, likeness.count, 0) / likeness.count).toBeCloseTo(1, 4);
    const apart = [0, 1, 2].map((i) => likeness.ofRun(9 + i, 1 + i, 1, 0));
    expect(likeness.ofRun(9, 1, 3, 0)).toBeCloseTo(
      apart.reduce((sum, value) => sum + value, 0),
      4,
    );
    expect(likeness.ofRun(9, 1, 0, 0)).toBe(0);
  });

  it("finds music at another pitch there, and there only", () => {
    for (const up of [1, 5, 11]) {
      const likeness = likenessOf(["verse"], ["verse", up]);
      const runs = Array.from({ length: 12 }, (_, semitones) => likeness.ofRun(8, 0, 8, semitones));
      expect(runs.indexOf(Math.max(...runs))).toBe(up);
      expect(runs[up]).toBeGreaterThan(4);
    }
  });
});
