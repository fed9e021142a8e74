import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { agreementWithChord, areChordTones, chordMaskOf } from "@/lib/places/chordAgreement";
import type { HeardEvent } from "@/lib/places/HeardEvent";
import { moveCost } from "@/lib/places/moveCost";
import { layOutNeck } from "@/lib/places/neck";
import type { Place } from "@/lib/places/Place";
import { placeCost } from "@/lib/places/placeCost";
import { placeSequence } from "@/lib/places/placeSequence";
import { type Spot, spotOf } from "@/lib/places/Spot";
import { USUAL_WEIGHTS } from "@/lib/places/weights";
import { parsePitchName } from "@/lib/theory/spelling";
import positions from "../../fixtures/steel/positions.json";

const neck = layOutNeck(E9);
const G = { tonic: "G", mode: "major" } as const;
const write = ({ fret, changes, strings }: Place) => `${fret}${changes.join("")} on ${strings.join("-")}`;

function stateCost({ notesMidi, startSec, endSec, chordLabel }: HeardEvent, here: Spot): number {
  const mask = chordLabel === undefined ? 0 : chordMaskOf(chordLabel);
  const fits = mask !== 0 && areChordTones(mask, notesMidi);
  const agreement = fits ? agreementWithChord(neck, here, mask).agreement : null;
  return placeCost(here, { key: G, lengthSec: endSec - startSec, agreement }, USUAL_WEIGHTS);
}

function stepCost(before: HeardEvent, event: HeardEvent, from: Spot, to: Spot): number {
  const moment = { timeSec: event.startSec - before.startSec, glide: event.glide ?? null };
  return moveCost(from, to, moment, USUAL_WEIGHTS);
}

/** Three events, so that every way through (a few thousand) can be tried. */
const threeEvents = fc
  .array(
    fc.record({
      notesMidi: fc.oneof(
        fc.constantFrom(
          [59, 62, 67],
          [60, 64, 67],
          [62, 66, 69],
          [62, 71],
          [64, 72],
          [66, 74],
          [55, 64],
          [49],
          [86],
        ),
        fc.integer({ min: 47, max: 92 }).map((note) => [note]),
      ),
      gap: fc.double({ min: 0.05, max: 3, noNaN: true }),
      chordLabel: fc.option(fc.constantFrom("G:maj", "C:maj", "D:7", "A:min", "N"), { nil: undefined }),
      glide: fc.option(fc.constantFrom("oblique" as const, "parallel" as const), { nil: undefined }),
    }),
    { minLength: 3, maxLength: 3 },
  )
  .map((parts) => {
    let at = 0;
    return parts.map(({ gap, ...event }): HeardEvent => {
      at += gap;
      return { ...event, startSec: at, endSec: at + 0.1 };
    });
  });

describe("placing a part", () => {
  it("is never dearer than any other way to play it, and costs what it says", () => {
    fc.assert(
      fc.property(threeEvents, (events) => {
        const placed = placeSequence(E9, events, { key: G });
        const chosen = placed.events.map(({ chosenIndex, candidates }) => candidates[chosenIndex!]!);
        const [one, two, three] = events as [HeardEvent, HeardEvent, HeardEvent];
        const [first = [], second = [], third = []] = placed.events.map(({ candidates }, at) =>
          candidates.map((place) => {
            const spot = spotOf(neck, place);
            return { place, spot, cost: stateCost(events[at]!, spot) };
          }),
        );
        let cheapest = Number.POSITIVE_INFINITY;
        let own = Number.NaN;
        for (const a of first) {
          for (const b of second) {
            const sofar = a.cost + b.cost + stepCost(one, two, a.spot, b.spot);
            for (const c of third) {
              const cost = sofar + c.cost + stepCost(two, three, b.spot, c.spot);
              cheapest = Math.min(cheapest, cost);
              if (a.place === chosen[0] && b.place === chosen[1] && c.place === chosen[2]) own = cost;
            }
          }
        }
        expect(own).toBeCloseTo(cheapest, 9);
        expect(placed.totalCost).toBeCloseTo(cheapest, 9);
        for (const [at, { candidates }] of placed.events.entries()) {
          expect(chosen[at]!.cost).toBeCloseTo(Math.min(...candidates.map(({ cost }) => cost)), 9);
          expect(chosen[at]!.cost).toBeCloseTo(placed.totalCost, 9);
        }
      }),
      { numRuns: 30 },
    );
  });

  it("passes over what cannot be played and places the rest", () => {
    const events = [[62], [20], [64, 65, 66, 67], [62]].map((notesMidi, at) => ({
      startSec: at,
      endSec: at + 1,
      notesMidi,
    }));
    const placed = placeSequence(E9, events);
    expect(placed.events.map(({ chosenIndex }) => chosenIndex === null)).toEqual([false, true, true, false]);
    expect(placed.events[1]?.candidates).toEqual([]);
    const [first, , , last] = placed.events.map(
      ({ candidates, chosenIndex }) => candidates[chosenIndex ?? -1],
    );
    expect(last).toEqual(first);
    expect(placeSequence(E9, [])).toMatchObject({ events: [], totalCost: 0 });
  });

  it("reckons by time and answers in the order asked", () => {
    const events = [[62], [64], [66], [67]].map((notesMidi, at) => ({
      startSec: at / 2,
      endSec: at / 2 + 0.5,
      notesMidi,
    }));
    const forth = placeSequence(E9, events);
    const back = placeSequence(E9, [...events].reverse());
    expect([...back.events].reverse()).toEqual(forth.events);
  });

  it("plays the scale of G where the lesson plays it", () => {
    const lesson = positions.find(({ what }) => what === "G major scale, open position")!;
    const events = lesson.cells.map(({ note }, at) => ({
      startSec: at * 0.4,
      endSec: at * 0.4 + 0.4,
      notesMidi: [parsePitchName(note).midi!],
    }));
    const placed = placeSequence(E9, events, { key: G });
    const chosen = placed.events.map(({ candidates, chosenIndex }) => write(candidates[chosenIndex!]!));
    expect(chosen).toEqual(
      lesson.cells.map(({ string, fret, changes }) => `${fret}${changes.join("")} on ${string}`),
    );
  });

  it("goes from 1 to 4 by A and B at the same fret when the chords say so", () => {
    // howcast.com lesson 512264: C lies over the G fret with A and B.
    const events = [
      { startSec: 0, endSec: 1, notesMidi: [59, 62, 67], chordLabel: "G:maj" },
      { startSec: 1, endSec: 2, notesMidi: [60, 64, 67], chordLabel: "C:maj" },
      { startSec: 2, endSec: 3, notesMidi: [59, 62, 67], chordLabel: "G:maj" },
    ];
    const placed = placeSequence(E9, events, { key: G });
    const chosen = placed.events.map(({ candidates, chosenIndex }) => write(candidates[chosenIndex!]!));
    expect(chosen).toEqual(["3 on 6-5-4", "3AB on 6-5-4", "3 on 6-5-4"]);
  });

  it("lets a glide that was heard tell pedal from bar", () => {
    const before = { startSec: 0, endSec: 1, notesMidi: [62, 67] };
    const place = (notesMidi: number[], glide?: "oblique" | "parallel") => {
      const { events } = placeSequence(E9, [before, { startSec: 1, endSec: 2, notesMidi, glide }]);
      return events.map(({ candidates, chosenIndex }) => candidates[chosenIndex!]!);
    };
    const [from, to] = place([64, 67], "oblique");
    expect(to!.strings).toEqual(from!.strings);
    expect(to!.fret).toBe(from!.fret);
    const [below, above] = place([64, 69], "parallel");
    expect(above!.strings).toEqual(below!.strings);
    expect(above!.fret - below!.fret).toBe(2);
    expect(above!.changes).toEqual(below!.changes);
  });
});
