import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SnapStore } from "@/lib/client/axis/SnapStore";
import { snapSec, stepSnap } from "@/lib/client/axis/snap";
import { movedEvents, shiftBetween, stretchedEvents } from "@/lib/client/song/movedEvents";
import { quantised } from "@/lib/client/song/quantised";
import { beatToSeconds, secondsToBeat } from "@/lib/notation/barGrid";
import { GRID, shown } from "./anyPart";

describe("snap", () => {
  it("draws to beats and to parts of them, and to nothing where it is off or no beats are known", () => {
    const near = (snap: Parameters<typeof snapSec>[1]) => snapSec(GRID, snap, 1.18);
    expect([near("beat"), near("half"), near("quarter"), near("off")]).toEqual([1, 1.25, 1.125, 1.18]);
    expect(near("triplet")).toBeCloseTo(1 + 0.5 / 3, 9);
    expect(snapSec(null, "beat", 1.18)).toBe(1.18);
  });

  it("steps to the next place, on from between two", () => {
    expect(stepSnap(GRID, "half", 1, 1)).toBe(1.25);
    expect(stepSnap(GRID, "half", 1.18, 1)).toBe(1.25);
    expect(stepSnap(GRID, "half", 1.18, -1)).toBe(1);
    expect(stepSnap(GRID, "triplet", 1, -1)).toBeCloseTo(1 - 0.5 / 3, 9);
    expect(stepSnap(GRID, "off", 1, 1)).toBeCloseTo(1.05, 9);
    expect(stepSnap(null, "beat", 0.1, -1)).toBe(0);
  });

  it("goes round all five and tells it", () => {
    const store = new SnapStore();
    const told: string[] = [];
    store.watch(() => told.push(store.now().snap));
    for (let count = 0; count < 5; count += 1) store.next();
    expect(told).toEqual(["half", "triplet", "quarter", "off", "beat"]);
    store.choose("beat");
    expect(told).toHaveLength(5);
  });
});

describe("events moved along", () => {
  /** Beats that get slower: half a second, then a whole one. */
  const slowing = { beatsSec: [0, 0.5, 1, 2, 3, 4], inBar: [1, 2, 3, 4, 1, 2], beatsPerBar: 4 };

  it("keep their place among the beats where the tempo changes", () => {
    const shift = shiftBetween(slowing, false, 0, 1);
    const moved = movedEvents([shown("a", 0), shown("b", 0.5)], shift, 10)!;
    expect(moved.get("a")).toEqual({ startSec: 1, endSec: 2 });
    expect(moved.get("b")).toEqual({ startSec: 2, endSec: 3 });
  });

  it("go by seconds where nothing snaps, and not out of the record", () => {
    const shift = shiftBetween(slowing, true, 0, 0.3);
    expect(movedEvents([shown("a", 0)], shift, 10)!.get("a")).toEqual({ startSec: 0.3, endSec: 0.8 });
    expect(movedEvents([shown("a", 1), shown("b", 0.2)], { seconds: -0.5 }, 10)).toBeNull();
    expect(movedEvents([shown("a", 9.7)], { seconds: 0.5 }, 10)).toBeNull();
    expect(movedEvents([shown("a", 9)], { seconds: 0.7 }, 10)!.get("a")).toEqual({
      startSec: 9.7,
      endSec: 10,
    });
  });

  it("there and back again is where it was", () => {
    const beats = fc.integer({ min: -4, max: 4 });
    fc.assert(
      fc.property(beats, fc.double({ min: 3, max: 5, noNaN: true }), (by, startSec) => {
        const there = movedEvents([shown("a", startSec)], { beats: by, grid: GRID }, 60)!.get("a")!;
        const back = movedEvents([shown("a", 0, there)], { beats: -by, grid: GRID }, 60)!.get("a")!;
        expect(back.startSec).toBeCloseTo(startSec, 9);
        expect(back.endSec).toBeCloseTo(startSec + 0.5, 9);
      }),
    );
  });

  it("are stretched alike, and never to nothing", () => {
    const events = [shown("a", 1), shown("b", 2, { endSec: 2.1 })];
    const shorter = stretchedEvents(events, { seconds: -0.2 });
    expect(shorter.get("a")!.endSec).toBeCloseTo(1.3, 9);
    expect(shorter.get("b")!.endSec).toBeCloseTo(2.05, 9);
  });
});

describe("quantising", () => {
  it("draws beginnings and ends to the nearest places, at least one apart", () => {
    const events = [
      shown("a", 1.04, { endSec: 1.45 }),
      shown("b", 1.52, { endSec: 1.56 }),
      shown("c", 2, { endSec: 2.5 }),
    ];
    const { edits, leftIds } = quantised(events, events, GRID, 2);
    expect(Object.fromEntries(edits)).toEqual({
      a: { startSec: 1, endSec: 1.5 },
      b: { startSec: 1.5, endSec: 1.75 },
    });
    expect(leftIds).toEqual([]);
  });

  it("leaves what would come to begin with another on its string, moved or not", () => {
    const events = [shown("a", 1.05), shown("b", 1.2), shown("low", 1.2, { strings: [9] })];
    const part = [...events, shown("still", 1.5, { strings: [9] })];
    const { edits, leftIds } = quantised(events, part, GRID, 1);
    expect([...edits.keys()]).toEqual(["a", "low"]);
    expect(leftIds).toEqual(["b"]);
    const onto = quantised([shown("x", 1.45, { strings: [9] })], part, GRID, 1);
    expect(onto).toEqual({ edits: new Map(), leftIds: ["x"] });
  });

  it("moves nothing by more than half a place, and does nothing the second time", () => {
    const starts = fc.uniqueArray(fc.double({ min: 1, max: 8, noNaN: true }), {
      minLength: 1,
      maxLength: 12,
    });
    fc.assert(
      fc.property(starts, fc.constantFrom(1, 2, 3, 4), (times, parts) => {
        const events = [...times]
          .sort((a, b) => a - b)
          .map((startSec, index) => shown(String(index), startSec, { strings: [1 + (index % 10)] }));
        const { edits } = quantised(events, events, GRID, parts);
        for (const [id, { startSec }] of edits) {
          const beat = secondsToBeat(GRID, startSec) * parts;
          expect(beat).toBeCloseTo(Math.round(beat), 6);
          const was = secondsToBeat(GRID, events[Number(id)]!.startSec) * parts;
          expect(Math.abs(beat - was)).toBeLessThan(0.5 + 1e-6);
        }
        const after = events
          .map((each) => ({ ...each, ...edits.get(each.id) }))
          .sort((a, b) => a.startSec - b.startSec);
        const again = quantised(after, after, GRID, parts).edits;
        for (const [id, { startSec }] of again)
          expect(startSec).toBeCloseTo(after.find((each) => each.id === id)!.startSec, 6);
        expect(beatToSeconds(GRID, 0)).toBe(1);
      }),
    );
  });
});
