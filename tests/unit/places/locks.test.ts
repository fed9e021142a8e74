import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import type { Place } from "@/lib/places/Place";
import type { PartLocks, PlaceLocks } from "@/lib/places/PlaceLocks";
import { placeSequence } from "@/lib/places/placeSequence";
import { rankPlaces, whyNoPlaces } from "@/lib/places/rankPlaces";

const write = ({ fret, changes, strings }: Place) => `${fret}${changes.join("")} on ${strings.join("-")}`;
const places = (notes: number[], locks: PlaceLocks = {}) =>
  rankPlaces(E9, notes, { locks }).map(write).sort();

const isPedal = (id: string) => ["A", "B", "C"].includes(id);

/** Whether a place keeps locks, said apart from the code under test. */
function keeps({ fret, changes, strings, notesMidi }: Place, locks: PlaceLocks): boolean {
  const down = locks.pedals === "down" ? ["A", "B"] : [];
  return [
    !locks.frets || (fret >= locks.frets.from && fret <= locks.frets.to),
    locks.fret === undefined || fret === locks.fret,
    !locks.grip || strings.every((string) => locks.grip!.includes(string)),
    !locks.pedals || changes.filter(isPedal).sort().join() === down.join(),
    !locks.changes || [...changes].sort().join() === [...locks.changes].sort().join(),
    !locks.strings || locks.strings.every(({ midi, string }) => strings[notesMidi.indexOf(midi)] === string),
  ].every(Boolean);
}

const frets = fc
  .tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 12 }))
  .map(([from, more]): PartLocks => ({ frets: { from, to: from + more } }));
const grip = fc
  .uniqueArray(fc.integer({ min: 1, max: 10 }), { minLength: 5, maxLength: 9 })
  .map((strings): PartLocks => ({ grip: strings }));
const pedals = fc.constantFrom<PartLocks>({ pedals: "up" }, { pedals: "down" });
const changes = fc
  .constantFrom([], ["A"], ["A", "B"], ["E"], ["B", "C"], ["A", "F"])
  .map((ids): PartLocks => ({ changes: ids }));
const oneLock = fc.oneof(frets, grip, pedals, changes);

describe("locks", () => {
  // The open and the pedals-down position of G and C on E9: b0b.com/wp/copedents/understanding-e9th, howcast.com 512264.
  it("bar the search to a fret, a range of frets, strings", () => {
    const pair = [62, 71];
    expect(places(pair, { fret: 3 })).toContain("3 on 5-3");
    expect(places(pair, { frets: { from: 3, to: 3 } })).toEqual(places(pair, { fret: 3 }));
    const on58 = places(pair, { grip: [8, 5] });
    expect(on58).toEqual(expect.arrayContaining(["10A on 8-5", "10C on 8-5"]));
    for (const place of on58) expect(place).toMatch(/ on 8-5$/);
  });

  it("put a note on a string and leave the others free", () => {
    const on3 = places([62, 71], { strings: [{ midi: 71, string: 3 }] });
    expect(on3.length).toBeGreaterThan(1);
    for (const place of on3) expect(place).toMatch(/-3$/);
  });

  it("hold pedals up or down with the levers free, and a state of feet and knees just as it is", () => {
    const up = rankPlaces(E9, [67], { locks: { pedals: "up" } });
    expect(up.every(({ changes }) => !changes.some(isPedal))).toBe(true);
    expect(up.some(({ changes }) => changes.length > 0)).toBe(true);
    const down = rankPlaces(E9, [67], { locks: { pedals: "down" } });
    expect(down.length).toBeGreaterThan(0);
    expect(down.every(({ changes }) => changes.filter(isPedal).join("") === "AB")).toBe(true);
    // String 4 needs no pedal for G at fret 3; locked, they are down all the same.
    expect(down.map(write)).toContain("3AB on 4");
    expect(places([67], { changes: [] })).toEqual(
      ["1 on 1", "3 on 4", "4 on 2", "8 on 5", "11 on 6", "13 on 7", "15 on 8", "17 on 9", "20 on 10"].sort(),
    );
    expect(places([67], { changes: ["A", "B"] })).toContain("3AB on 4");
  });

  it("hold to one place", () => {
    const place = { fret: 3, changes: ["B", "A"], strings: [4] };
    expect(places([67], { place })).toEqual(["3AB on 4"]);
    expect(places([68], { place })).toEqual([]);
  });

  it("leave just what keeps them and sounds the notes, for one event and for a part", () => {
    const notes = fc.constantFrom([62], [67], [62, 71], [64, 72], [60, 64, 67], [55, 59, 62]);
    let count = 0;
    fc.assert(
      fc.property(notes, oneLock, oneLock, (notesMidi, part, own) => {
        const event = { startSec: 0, endSec: 1, notesMidi, locks: own };
        const [placed] = placeSequence(E9, [event], { locks: part }).events;
        for (const place of placed!.candidates) {
          count += 1;
          expect(keeps(place, own) && keeps(place, part)).toBe(true);
          expect(place.strings.map((string) => effectiveMidi(E9, string, place.fret, place.changes))).toEqual(
            notesMidi,
          );
        }
        // What keeps all locks and needs all of its changes is never lost.
        const free = rankPlaces(E9, notesMidi).filter((place) => keeps(place, own) && keeps(place, part));
        for (const place of free) expect(placed!.candidates.map(write)).toContain(write(place));
        expect(placed!.whyNone === null).toBe(placed!.candidates.length > 0);
      }),
      { numRuns: 150 },
    );
    expect(count).toBeGreaterThan(100);
  });

  it("say which of them leaves nothing, and keep the other events", () => {
    const why = (notes: number[], locks: PlaceLocks) => whyNoPlaces(E9, notes, locks).words;
    expect(why([62, 71], { fret: 1, grip: [1, 2, 3, 4, 5, 6, 7, 8, 9] })).toBe(
      "Locked: the bar at fret 1. That leaves no place for these notes.",
    );
    expect(why([62, 71], { fret: 3, pedals: "down", frets: { from: 0, to: 24 } })).toBe(
      "Locked: the bar at fret 3 and pedals down. Together they leave no place for these notes.",
    );
    expect(why([62], { strings: [{ midi: 64, string: 5 }] })).toBe(
      "Locked: E4 on string 5. That leaves no place for these notes.",
    );
    expect(why([62], { changes: ["A", "C"] })).toBe(
      "Locked: just A and C down. Foot and knees cannot hold that.",
    );
    expect(why([62], { place: { fret: 3, frets: [3, 5], strings: [5, 3], changes: [] } })).toBe(
      "Locked: strings 3, 5 at frets 5, 3 with nothing pressed. That leaves no place for these notes.",
    );
    expect(why([20], { fret: 3 })).toBe("This note does not lie on this neck.");
    const events = [[62], [67], [62]].map((notesMidi, at) => ({ startSec: at, endSec: at + 1, notesMidi }));
    const locked = [events[0]!, { ...events[1]!, locks: { fret: 5 } }, events[2]!];
    const placed = placeSequence(E9, locked, { locks: { grip: [4, 5] } });
    expect(placed.events.map(({ chosenIndex }) => chosenIndex === null)).toEqual([false, true, false]);
    expect(placed.events[1]!.whyNone?.words).toBe(
      "Locked: the bar at fret 5 and strings 4, 5 for the whole part. Together they leave no place for these notes.",
    );
  });

  it("know pedals down by the copedent's own rest of the foot, and say where that is not known", () => {
    const cb = { ...E9, footRest: [2, 3] };
    expect(rankPlaces(cb, [67], { locks: { pedals: "down" } })[0]!.changes).toEqual(
      expect.arrayContaining(["B", "C"]),
    );
    expect(whyNoPlaces(E9, [62], { fret: 2 }).because).toBe("locks");
    expect(whyNoPlaces(E9, [20], { fret: 2 }).because).toBe("instrument");
    expect(whyNoPlaces({ ...E9, footRest: [] }, [67], { pedals: "down" }).words).toMatch(
      /does not say over which/,
    );
  });
});
