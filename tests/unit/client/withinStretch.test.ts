import fc from "fast-check";
import { expect, it } from "vitest";
import { withinStretch } from "@/lib/client/axis/withinStretch";

const seconds = fc.double({ min: 0, max: 100, noNaN: true });
const lists = fc
  .array(fc.record({ startSec: seconds, lastsSec: fc.double({ min: 0, max: 60, noNaN: true }) }))
  .map((all) =>
    all
      .map(({ startSec, lastsSec }) => ({ startSec, endSec: startSec + lastsSec }))
      .sort((a, b) => a.startSec - b.startSec),
  );

it("gives of a list in order just what reaches into a stretch, whatever overlaps", () => {
  fc.assert(
    fc.property(lists, seconds, seconds, (list, a, b) => {
      const [fromSec, toSec] = [Math.min(a, b), Math.max(a, b)];
      const expected = list.filter((each) => each.endSec >= fromSec && each.startSec <= toSec);
      expect(withinStretch(list, fromSec, toSec)).toEqual(expected);
      // Asked again of the same list, by what it kept of it.
      expect(withinStretch(list, fromSec, toSec)).toEqual(expected);
    }),
  );
});

it("looks at what it gives and not at the whole list", () => {
  let looks = 0;
  const list = Array.from({ length: 10_000 }, (_, at) => ({
    get startSec() {
      looks += 1;
      return at;
    },
    endSec: at + 1,
  }));
  withinStretch(list, 0, 0);
  looks = 0;
  expect(withinStretch(list, 5_000, 5_010)).toHaveLength(12);
  expect(looks).toBeLessThan(50);
});
