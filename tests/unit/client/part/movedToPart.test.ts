import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { movedWords } from "@/app/songs/[songId]/parts/clipActs";
import { movedToPart } from "@/lib/client/song/movedToPart";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import { E9 } from "@/lib/instrument/copedents/e9";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { shown } from "./anyPart";

const MANDOLIN = findCopedent("mandolin")!;
const AROUND = { key: undefined, changes: [] };
const part = (copedent: typeof E9, events: Parameters<typeof movedToPart>[2]["events"] = []) => {
  const from = { kind: "preset" as const, id: copedent.id };
  return { head: { copedent, from, chosenBy: null, chosenAtMs: null }, events };
};

describe("events that go to another part", () => {
  it("sound there as they did, on that part's strings, or stay", () => {
    const string = fc.integer({ min: 1, max: 10 });
    const drawn = fc.array(fc.record({ fret: fc.integer({ min: 0, max: 14 }), string }), {
      ...{ minLength: 1, maxLength: 6 },
    });
    fc.assert(
      fc.property(drawn, (some) => {
        const events = some.map((each, at) =>
          shown(String(at), 2 * at, { fret: each.fret, strings: [each.string] }),
        );
        const { laid, unplayableIds, crowdedIds } = movedToPart(events, E9, part(MANDOLIN), AROUND);
        expect([...laid.keys(), ...unplayableIds].sort()).toEqual(events.map(({ id }) => id).sort());
        expect(crowdedIds).toEqual([]);
        for (const event of events) {
          const there = laid.get(event.id);
          if (!there) continue;
          const pitches = [stoppedPitches(E9, event), stoppedPitches(MANDOLIN, there)];
          expect(pitches[1]).toEqual(pitches[0]);
          expect([there.startSec, there.endSec]).toEqual([event.startSec, event.endSec]);
        }
      }),
      { numRuns: 30 },
    );
  });

  it("stay where a mandolin has no such note, and the others go", () => {
    const [low, high] = [shown("low", 0, { strings: [10], fret: 0 }), shown("high", 1, { strings: [4] })];
    const { laid, unplayableIds } = movedToPart([low, high], E9, part(MANDOLIN), AROUND);
    expect(unplayableIds).toEqual(["low"]);
    expect([...laid.keys()]).toEqual(["high"]);
  });

  it("stay where something sounds on their strings there, but not for what has just ended", () => {
    const standing = shown("there", 0, { strings: [4], endSec: 1 });
    const events = [
      shown("beside", 0.5, { strings: [5], endSec: 1.5 }),
      shown("over", 0.8, { strings: [4, 6], endSec: 1.2 }),
      shown("after", 0.99, { strings: [4], endSec: 2 }),
    ];
    const { laid, crowdedIds } = movedToPart(events, E9, part(E9, [standing]), AROUND);
    expect(crowdedIds).toEqual(["over"]);
    expect([...laid.keys()]).toEqual(["beside", "after"]);
  });

  it("stay where another that goes begins on the same string at the same moment, so that none is hidden (D14)", () => {
    // At fret 3 E9 sounds B3 on 6 and A3 on 7, and a mandolin has both on its lowest string only (usual tunings).
    const together = [0, 0.01].map((startSec, at) =>
      shown(String(at), startSec, { strings: [[6, 7][at]!], endSec: 3 }),
    );
    const { laid, crowdedIds } = movedToPart(together, E9, part(MANDOLIN), AROUND);
    expect([[...laid.keys()], crowdedIds]).toEqual([["0"], ["1"]]);
    const [first, second] = together as [(typeof together)[0], (typeof together)[0]];
    const later = { ...second, startSec: 1 };
    expect([...movedToPart([first, later], E9, part(MANDOLIN), AROUND).laid.keys()]).toEqual(["0", "1"]);
    const pencilled = [first, { ...later, mark: "pencil" as const }];
    expect(movedToPart(pencilled, E9, part(MANDOLIN), AROUND).crowdedIds).toEqual(["1"]);
  });

  it("are told in words: what went, what stayed and why", () => {
    expect(movedWords("Fiddle", 3, 0, 0)).toBe("3 events moved to Fiddle.");
    expect(movedWords("Fiddle", 1, 2, 1)).toBe(
      "1 event moved to Fiddle. 2 events stayed, which Fiddle cannot play. 1 event stayed, since something sounds on those strings there.",
    );
    expect(movedWords("Fiddle", 0, 1, 0)).toBe(
      "Nothing was moved. 1 event stayed, which Fiddle cannot play.",
    );
  });
});
