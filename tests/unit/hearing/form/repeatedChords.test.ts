import { describe, expect, it } from "vitest";
import { repeatedChords } from "@/lib/hearing/form/repeatedChords";

describe("stretches of repeated bars", () => {
  // Three bars of two stretches each, a second long; the middle bar's second stretch is hardly heard.
  const edgesSec = [0, 1, 2, 3, 4, 5, 6];
  const bars = [0, 2, 4].map((startSec) => ({ startSec, endSec: startSec + 2 }));
  const certain = [0.9, 0.9, 0.9, 0.2, 0.9, 0.9]
    .map((surest) => [surest, 1 - surest])
    .map(([a, b]) => [a!, b! / 4, b! / 4, b! / 4, b! / 4]);
  const again = (bar: number, of: number, likeness: number, semitones = 0) => ({
    bar,
    of,
    likeness,
    semitones,
  });

  it("share place by place, and only what was hardly heard takes", () => {
    const groups = repeatedChords({ certain, edgesSec }, bars, [again(1, 0, 0.95, 2), again(2, 0, 0.95)]);
    expect(groups).toEqual([
      [
        { stretch: 0, semitones: 0, takes: false },
        { stretch: 2, semitones: 2, takes: false },
        { stretch: 4, semitones: 0, takes: false },
      ],
      [
        { stretch: 1, semitones: 0, takes: false },
        { stretch: 3, semitones: 2, takes: true },
        { stretch: 5, semitones: 0, takes: false },
      ],
    ]);
  });

  it("share nothing where bars are only rather alike", () => {
    expect(repeatedChords({ certain, edgesSec }, bars, [again(1, 0, 0.6)])).toEqual([]);
  });

  it("share nothing where a bar falls into other stretches than the one it repeats", () => {
    const cut = { certain: [...certain, certain[0]!], edgesSec: [0, 1, 2, 3, 3.5, 4, 5, 6] };
    expect(repeatedChords(cut, bars, [again(1, 0, 0.95)])).toEqual([]);
    expect(repeatedChords(cut, bars, [again(2, 0, 0.95)])).toHaveLength(2);
  });
});
