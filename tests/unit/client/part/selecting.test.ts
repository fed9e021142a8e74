import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { eventsInBox, spanOf, standing, toggled } from "@/lib/client/song/partSelection";
import { shown } from "./anyPart";

const STRINGS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
const part = [
  shown("a", 1, { strings: [4, 5] }),
  shown("b", 1, { strings: [8] }),
  shown("c", 1.5, { strings: [5] }),
  shown("d", 2, { strings: [10] }),
];

describe("events in a box", () => {
  it("are those that begin in it on a string of it, its corners counted in, whichever corner comes first", () => {
    const box = (fromSec: number, fromString: number, toSec: number, untilString: number) =>
      eventsInBox(
        part,
        { timeSec: fromSec, string: fromString },
        { timeSec: toSec, string: untilString },
        STRINGS,
      );
    expect(box(1, 5, 1.5, 5)).toEqual(["a", "c"]);
    expect(box(1.5, 5, 1, 5)).toEqual(["a", "c"]);
    expect(box(1, 10, 2, 1)).toEqual(["a", "b", "c", "d"]);
    expect(box(1, 6, 2, 7)).toEqual([]);
    // A hand is no clock: what begins 20 ms beside the corner begins on it.
    expect(box(1.02, 4, 1.48, 4)).toEqual(["a"]);
  });

  it("a box drawn further holds all that a smaller one within it holds", () => {
    const corner = fc.record({
      timeSec: fc.double({ min: 0, max: 3, noNaN: true }),
      string: fc.constantFrom(...STRINGS),
    });
    fc.assert(
      fc.property(corner, corner, fc.double({ min: 0, max: 1, noNaN: true }), (one, other, more) => {
        const small = eventsInBox(part, one, other, STRINGS);
        const later = Math.max(one.timeSec, other.timeSec) + more;
        const wide = [
          { timeSec: Math.min(one.timeSec, other.timeSec), string: 1 },
          { timeSec: later, string: 10 },
        ] as const;
        expect(eventsInBox(part, wide[0], wide[1], STRINGS)).toEqual(expect.arrayContaining(small));
      }),
    );
  });
});

describe("chosen events", () => {
  it("toggling one twice leaves the choice as it was", () => {
    expect(toggled(["a", "b"], "b")).toEqual(["a"]);
    expect(toggled(toggled(["a"], "b"), "b")).toEqual(["a"]);
  });

  it("stand in order of time, without those that are gone", () => {
    expect(standing(part, ["d", "gone", "a"]).map(({ id }) => id)).toEqual(["a", "d"]);
    expect(spanOf(standing(part, ["c", "a"]))).toEqual({ startSec: 1, endSec: 2 });
    expect(spanOf([])).toBeNull();
  });
});
