import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { feetAndKneesCanHold } from "@/lib/instrument/holdable";
import { engagedStages } from "@/lib/instrument/stages";
import { moveCost } from "@/lib/places/moveCost";
import { layOutNeck } from "@/lib/places/neck";
import type { Place } from "@/lib/places/Place";
import { placeCost } from "@/lib/places/placeCost";
import { placeSequence } from "@/lib/places/placeSequence";
import { spotOf } from "@/lib/places/Spot";
import { USUAL_WEIGHTS, type Weights } from "@/lib/places/weights";
import { randomCopedents } from "./randomCopedents";

/** Nothing that depends on where on the neck a place lies. */
const ANYWHERE: Weights = {
  ...USUAL_WEIGHTS,
  perFretBelowNut: 0,
  perFretAboveMiddle: 0,
  perFretAboveHigh: 0,
  openStrings: 0,
};
const write = ({ fret, changes, strings }: Place, up = 0) =>
  `${fret + up} ${changes.join("+")} on ${strings.join("-")}`;

/** Short parts that a random instrument can mostly play, with the instrument. */
const parts = fc
  .tuple(
    randomCopedents,
    fc.array(
      fc.record({
        picks: fc.array(fc.tuple(fc.integer({ min: 0, max: 6 }), fc.constantFrom(-1, 0, 0, 1, 2)), {
          minLength: 1,
          maxLength: 3,
        }),
        fret: fc.integer({ min: 0, max: 8 }),
        gapSec: fc.double({ min: 0.05, max: 2, noNaN: true }),
        glide: fc.option(fc.constantFrom("oblique" as const, "parallel" as const), { nil: undefined }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
  )
  .map(([copedent, events]) => {
    let startSec = 0;
    const heard = events.map(({ picks, fret, gapSec, glide }) => {
      startSec += gapSec;
      const notesMidi = picks.map(
        ([string, by]) => copedent.strings[string % copedent.strings.length]!.openMidi + by + fret,
      );
      return { startSec, endSec: startSec + 0.4, notesMidi, glide };
    });
    return { copedent, heard };
  });

describe("a part on any instrument", () => {
  it("never breaks a limit of the body, and sounds what was asked for", () => {
    fc.assert(
      fc.property(parts, ({ copedent, heard }) => {
        for (const [event, { candidates }] of placeSequence(copedent, heard).events.entries()) {
          for (const place of candidates) {
            expect(feetAndKneesCanHold(engagedStages(copedent, place.changes))).toBe(true);
            expect(new Set(place.strings).size).toBe(place.strings.length);
            expect(place.fret).toBeGreaterThanOrEqual(0);
            expect(place.fret).toBeLessThanOrEqual(copedent.fretCount);
            expect(stoppedPitches(copedent, place)).toEqual(heard[event]!.notesMidi);
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  it("is laid out as cheaply as the cheapest of all ways", () => {
    let compared = 0;
    fc.assert(
      fc.property(parts, ({ copedent, heard }) => {
        const neck = layOutNeck(copedent);
        const placed = placeSequence(copedent, heard);
        const layers = placed.events
          .map(({ candidates }, event) => ({
            event: heard[event]!,
            spots: candidates.map((place) => spotOf(neck, place)),
          }))
          .filter(({ spots }) => spots.length > 0);
        fc.pre(layers.length > 0 && layers.reduce((ways, { spots }) => ways * spots.length, 1) < 30_000);
        const costOfWay = (at: number, sofar: number, before: number): number => {
          const layer = layers[at];
          if (layer === undefined) return sofar;
          const { event, spots } = layer;
          const last = layers[at - 1];
          return Math.min(
            ...spots.map((spot, state) => {
              const lengthSec = event.endSec - event.startSec;
              const own = placeCost(spot, { lengthSec, agreement: null }, USUAL_WEIGHTS);
              const timeSec = last ? event.startSec - last.event.startSec : null;
              const moment = { timeSec, glide: event.glide ?? null };
              const move = last ? moveCost(last.spots[before]!, spot, moment, USUAL_WEIGHTS) : 0;
              return costOfWay(at + 1, sofar + own + move, state);
            }),
          );
        };
        compared += 1;
        expect(placed.totalCost).toBeCloseTo(costOfWay(0, 0, -1), 9);
      }),
      { numRuns: 100 },
    );
    expect(compared).toBeGreaterThan(50);
  }, 30_000);

  it("moves by as many frets as it is transposed by half steps, where the frets allow", () => {
    fc.assert(
      fc.property(parts, fc.integer({ min: 1, max: 6 }), ({ copedent, heard }, up) => {
        const longer = { ...copedent, fretCount: copedent.fretCount + up };
        const moved = heard.map((event) => ({
          ...event,
          notesMidi: event.notesMidi.map((midi) => midi + up),
        }));
        const here = placeSequence(copedent, heard, { weights: ANYWHERE });
        const there = placeSequence(longer, moved, { weights: ANYWHERE });
        here.events.forEach(({ candidates }, event) => {
          const higher = there.events[event]!.candidates.filter(({ fret }) => fret >= up);
          expect(higher.map((place) => write(place))).toEqual(candidates.map((place) => write(place, up)));
        });
        // More frets below may offer an easier way; where they offer none, it is the same way.
        const isAllAbove = there.events.every(({ candidates }) => candidates.every(({ fret }) => fret >= up));
        if (isAllAbove) {
          expect(there.totalCost).toBeCloseTo(here.totalCost, 9);
          expect(there.events.map(({ chosenIndex }) => chosenIndex)).toEqual(
            here.events.map(({ chosenIndex }) => chosenIndex),
          );
        } else if (
          there.events.every(
            ({ candidates }, event) => candidates.length > 0 === here.events[event]!.candidates.length > 0,
          )
        ) {
          expect(there.totalCost).toBeLessThanOrEqual(here.totalCost + 1e-9);
        }
      }),
      { numRuns: 150 },
    );
  });
});
