import { describe, expect, it } from "vitest";
import { barsOf, chordsInBars } from "@/lib/hearing/form/barChords";
import { BarLikeness } from "@/lib/hearing/form/barLikeness";
import { fewestWords } from "@/lib/hearing/form/fewestWords";
import { played } from "./playedForm";

const SONG = ["intro", "verse", "verse", "chorus", "verse", "chorus", "bridge", "chorus", "chorus"];

/** Counts what it is asked. */
class CountingLikeness extends BarLikeness {
  asked = 0;

  override ofRun(...of: Parameters<BarLikeness["ofRun"]>): number {
    this.asked += 1;
    return super.ofRun(...of);
  }
}

function likenessOf(times: number): CountingLikeness {
  const phrases = Array.from({ length: times }, () => SONG.map((name) => [name] as const)).flat();
  const { grid, certain, edgesSec, durationSec } = played({ phrases });
  return new CountingLikeness(chordsInBars(certain, edgesSec, barsOf(grid.beats, durationSec), 4));
}

describe("the search for the account with the fewest words", () => {
  it("tells the whole record whatever it may spend, and no worse for more", () => {
    const accounts = [0, 2_000, undefined].map((effort) => fewestWords(likenessOf(2), undefined, effort));
    for (const { sections } of accounts) {
      expect(sections[0]!.from).toBe(0);
      expect(sections.at(-1)!.to).toBe(2 * (4 + 8 * 8));
      sections.slice(1).forEach(({ from }, i) => {
        expect(from).toBe(sections[i]!.to);
      });
    }
    const gains = accounts.map(({ gain }) => gain);
    expect(gains).toEqual([...gains].sort((a, b) => a - b));
  });

  it("compares no more for each bar of a long record than of a short one", () => {
    const spent = (effort: number): number => {
      const likeness = likenessOf(2);
      fewestWords(likeness, undefined, effort);
      return likeness.asked / likeness.count;
    };
    const least = spent(0);
    expect(spent(1_000) - least).toBeLessThan(1_200);
    expect(spent(20_000) - least).toBeGreaterThan(2_000);
  });

  it("tells how far it is, beginning by beginning", () => {
    const told: number[] = [];
    const counts = new Set<number>();
    fewestWords(likenessOf(1), (index, count) => {
      told.push(index);
      counts.add(count);
    });
    expect(counts.size).toBe(1);
    expect(told).toEqual(Array.from({ length: [...counts][0]! }, (_, i) => i));
    expect(told.length).toBeGreaterThan(8);
  });
});
