import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { fretsOf } from "@/lib/instrument/frets";
import { UnknownChangeError } from "@/lib/instrument/stages";
import { fingeringOf } from "@/lib/places/fingers/Fingering";
import { type HandState, handMoveTerms, handTerms } from "@/lib/places/fingers/fingerCost";
import { USUAL_FINGER_WEIGHTS } from "@/lib/places/fingers/fingerWeights";
import { scaleMm } from "@/lib/places/fingers/fretGeometry";
import type { HeardEvent } from "@/lib/places/HeardEvent";
import type { PlacedSequence } from "@/lib/places/PlacedSequence";
import type { PlaceLocks } from "@/lib/places/PlaceLocks";
import { placeSequence } from "@/lib/places/placeSequence";
import { rankPlaces, whyNoPlaces } from "@/lib/places/rankPlaces";
import { BANJO, BASS, GUITAR, MANDOLIN } from "../../../fixtures/fretted/necks";

const w = USUAL_FINGER_WEIGHTS;

const inTime = (stepSec: number, ...notes: number[][]): HeardEvent[] =>
  notes.map((notesMidi, index) => ({ startSec: index * stepSec, endSec: (index + 1) * stepSec, notesMidi }));

const chosen = ({ events }: PlacedSequence) =>
  events.map(({ candidates, chosenIndex }) => {
    const place = candidates[chosenIndex ?? -1];
    return place ? place.strings.map((string, at) => `${string}:${fretsOf(place)[at]}`).join(" ") : null;
  });

/** The cheapest of all ways with the hand in every position, tried one by one. */
function bruteForce(neck: Copedent, placed: PlacedSequence, events: readonly HeardEvent[]): number {
  const scale = scaleMm(neck);
  const layers = placed.events.map(({ candidates }) =>
    candidates.flatMap((place): HandState[] => {
      const fingering = fingeringOf(neck, place, place.strings.length, w)!;
      return fingering.positions.map((position) => ({ fingering, position }));
    }),
  );
  let best = Number.POSITIVE_INFINITY;
  const goOn = (at: number, before: HandState | null, sum: number) => {
    if (at === layers.length) {
      best = Math.min(best, sum);
      return;
    }
    for (const state of layers[at]!) {
      const own = handTerms(state, scale, w).reduce((total, { cost }) => total + cost, 0);
      const timeSec = at === 0 ? null : events[at]!.startSec - events[at - 1]!.startSec;
      const moment = { timeSec, isGlide: events[at]!.glide !== undefined };
      const way = before === null ? [] : handMoveTerms(before, state, moment, w);
      goOn(at + 1, state, sum + own + way.reduce((total, { cost }) => total + cost, 0));
    }
  };
  goOn(0, null, 0);
  return best;
}

describe("a part placed for fingers", () => {
  it("is never dearer than any way that trying all of them finds", () => {
    const event = (neck: Copedent) =>
      fc.record({
        notes: fc.uniqueArray(
          fc.integer({
            min: Math.min(...neck.strings.map(({ openMidi }) => openMidi)),
            max: Math.max(...neck.strings.map(({ openMidi }) => openMidi)) + 9,
          }),
          { minLength: 1, maxLength: 2 },
        ),
        stepSec: fc.constantFrom(0.1, 0.5, 2),
        glide: fc.constantFrom(undefined, undefined, "oblique" as const, "parallel" as const),
      });
    const part = fc
      .constantFrom(GUITAR, BASS, BANJO, MANDOLIN)
      .chain((neck) => fc.tuple(fc.constant(neck), fc.array(event(neck), { minLength: 1, maxLength: 3 })));
    fc.assert(
      fc.property(part, ([neck, list]) => {
        let startSec = 0;
        const events = list.map(({ notes, stepSec, glide }): HeardEvent => {
          startSec += stepSec;
          return { startSec, endSec: startSec + stepSec, notesMidi: notes, ...(glide && { glide }) };
        });
        const placed = placeSequence(neck, events, { maxFret: 12 });
        if (placed.events.some(({ candidates }) => candidates.length === 0)) return;
        expect(placed.totalCost).toBeCloseTo(bruteForce(neck, placed, events), 9);
        // Each event's chosen candidate has the least cost of all, that of the whole way; its terms add up to it.
        for (const [index, { candidates, chosenIndex }] of placed.events.entries()) {
          expect(candidates[chosenIndex!]!.cost).toBeCloseTo(placed.totalCost, 9);
          expect(Math.min(...candidates.map(({ cost }) => cost))).toBeCloseTo(placed.totalCost, 9);
          const { terms } = placed.explain(index, chosenIndex!);
          expect(terms.reduce((sum, { cost }) => sum + cost, 0)).toBeCloseTo(placed.totalCost, 9);
          expect(placed.chosenThrough(index, chosenIndex!)[index]).toBe(chosenIndex);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("plays the C major scale of the guitar in its open position", () => {
    // C3 to C4: fingers of the first position and open strings, as every handbook begins (common practice, no source).
    const scale = [48, 50, 52, 53, 55, 57, 59, 60].map((note) => [note]);
    expect(chosen(placeSequence(GUITAR, inTime(0.5, ...scale)))).toEqual([
      "5:3",
      "4:0",
      "4:2",
      "4:3",
      "3:0",
      "3:2",
      "2:0",
      "2:1",
    ]);
  });

  it("stays in one position high on the neck: the second-finger major scale, which all lies within four frets", () => {
    // C major from the eighth fret of string 6, locked there: one finger a fret from the seventh to the tenth
    // (common practice, no source).
    const scale = [48, 50, 52, 53, 55, 57, 59, 60].map((note) => [note]);
    const placed = placeSequence(GUITAR, inTime(0.3, ...scale), { locks: { frets: { from: 7, to: 10 } } });
    expect(chosen(placed)).toEqual(["6:8", "6:10", "5:7", "5:8", "5:10", "4:7", "4:9", "4:10"]);
    const reasons = placed.events.map(({ chosenIndex }, index) => placed.explain(index, chosenIndex!).reason);
    expect(reasons[0]).toMatch(/^Index at 7/);
    for (const reason of reasons.slice(1)) expect(reason).toMatch(/^Index at 7, no shift/);
  });

  it.each([
    // Open chords of the guitar, and the banjo's open roll (common practice, no source). Notes low to high.
    ["C", GUITAR, [48, 52, 55, 60, 64], "5:3 4:2 3:0 2:1 1:0"],
    ["E minor", GUITAR, [40, 47, 52, 55, 59, 64], "6:0 5:2 4:2 3:0 2:0 1:0"],
    ["D", GUITAR, [50, 57, 62, 66], "4:0 3:2 2:3 1:2"],
    ["G on the banjo", BANJO, [50, 55, 59, 62, 67], "4:0 3:0 2:0 1:0 5:0"],
    ["G on the mandolin", MANDOLIN, [55, 62, 71, 79], "4:0 3:0 2:2 1:3"],
  ] as const)("puts %s where the handbooks have it", (_, neck, notes, places) => {
    expect(chosen(placeSequence(neck, inTime(1, [...notes])))).toEqual([places]);
  });

  it("keeps a note that rings on its string, and lets a glide stay on one string", () => {
    // D4 is held while E4 goes to F4 over it.
    const events: HeardEvent[] = [
      { startSec: 0, endSec: 1, notesMidi: [62, 64] },
      {
        startSec: 1,
        endSec: 2,
        notesMidi: [62, 65],
        soundsOn: [
          { from: 0, forSec: 1, glides: false },
          { from: 1, forSec: 1, glides: true },
        ],
        glide: "oblique",
      },
    ];
    const [first, second] = chosen(placeSequence(GUITAR, events)).map((each) => each!.split(" "));
    expect(second![second!.indexOf(first![0]!)]).toBe(first![0]);
    const stringOf = (each: string) => each.split(":")[0];
    const gliding = second!.find((each) => stringOf(each) === stringOf(first![1]!));
    expect(gliding).toBeDefined();
  });

  it("passes over what no hand can play, and says why", () => {
    const placed = placeSequence(GUITAR, inTime(1, [64], [40, 41], [65]));
    expect(placed.events.map(({ chosenIndex }) => chosenIndex === null)).toEqual([false, true, false]);
    expect(placed.events[1]!.whyNone?.words).toBe("One hand cannot stop these notes together on this neck.");
    expect(placeSequence(GUITAR, inTime(1, [20])).events[0]!.whyNone?.words).toBe(
      "This note does not lie on this neck.",
    );
  });
});

describe("locks on fingers", () => {
  const locked = (notes: number[], locks: PlaceLocks, neck = GUITAR) =>
    rankPlaces(neck, notes, { locks }).map((place) =>
      place.strings.map((string, at) => `${string}:${fretsOf(place)[at]}`).join(" "),
    );

  it("hold a string, a range of frets, a grip, a fret or a whole place", () => {
    expect(locked([64], {}).sort()).toEqual(["1:0", "2:5", "3:9", "4:14", "5:19"]);
    expect(locked([64], { strings: [{ midi: 64, string: 3 }] })).toEqual(["3:9"]);
    expect(locked([64], { frets: { from: 4, to: 10 } }).sort()).toEqual(["2:5", "3:9"]);
    expect(locked([64], { grip: [4, 5, 6] }).sort()).toEqual(["4:14", "5:19"]);
    expect(locked([64], { fret: 5 })).toEqual(["2:5"]);
    const place = { fret: 2, frets: [0, 2], strings: [2, 3], changes: [] };
    expect(locked([59, 57], { place })).toEqual(["2:0 3:2"]);
    expect(locked([64], { pedals: "up", changes: [] })).toHaveLength(5);
    expect(() => locked([64], { changes: ["A"] })).toThrow(UnknownChangeError);
  });

  it("that leave nothing are named", () => {
    expect(whyNoPlaces(GUITAR, [64], { frets: { from: 1, to: 4 } }).words).toBe(
      "Locked: frets 1 to 4. That leaves no place for these notes.",
    );
    expect(whyNoPlaces(GUITAR, [64], { frets: { from: 1, to: 4 } }).because).toBe("locks");
    expect(whyNoPlaces(GUITAR, [20], { frets: { from: 1, to: 4 } }).because).toBe("instrument");
    expect(whyNoPlaces(GUITAR, [64], { frets: { from: 4, to: 10 }, grip: [1, 4] }).words).toBe(
      "Locked: frets 4 to 10 and strings 1, 4. Together they leave no place for these notes.",
    );
    const options = { locks: { grip: [1] } };
    expect(placeSequence(GUITAR, inTime(1, [63]), options).events[0]!.whyNone?.words).toBe(
      "Locked: strings 1 for the whole part. That leaves no place for these notes.",
    );
  });
});

describe("places ranked for fingers", () => {
  it("say what the hand does, and lie near where it is", () => {
    const before = { fret: 7, strings: [3], changes: [] };
    // D4 by the second finger leaves the first over F4 on the next string.
    const [best] = rankPlaces(GUITAR, [65], { before, secondsSinceBefore: 0.25 });
    expect(best).toMatchObject({ strings: [2], fret: 6 });
    expect(best!.reason).toMatch(/^Index at 6, no shift/);
    const far = rankPlaces(GUITAR, [76], { before: { fret: 1, strings: [2], changes: [] } });
    expect(far[0]!.reason).toMatch(/^Index to \d+, up \d+ frets/);
    for (const place of far)
      expect(place.terms.reduce((sum, { cost }) => sum + cost, 0)).toBeCloseTo(place.cost, 9);
  });

  it("stand out where they differ in kind", () => {
    const standing = rankPlaces(GUITAR, [64]).filter(({ standsOut }) => standsOut);
    expect(standing.length).toBe(3);
    expect(new Set(standing.map(({ strings }) => strings[0])).size).toBe(3);
  });

  it("tell of a barre and of a stretch", () => {
    // F across all strings, in the first position (common practice, no source).
    const f = rankPlaces(GUITAR, [41, 48, 53, 57, 60, 65]);
    expect(f[0]!.reason).toMatch(/^Index at 1\. One finger lies across the strings/);
    // Five frets in the first position: F4 on string 1 at 1, and G#3 on string 4 at 6, or at 5 a G3.
    const wide = rankPlaces(GUITAR, [65, 55]).find(({ frets }) => frets?.join() === "1,5");
    expect(wide!.reason).toContain("A stretch of the hand");
    expect(rankPlaces(GUITAR, [65, 56]).some(({ frets }) => frets?.join() === "1,6")).toBe(false);
  });
});
