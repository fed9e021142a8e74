import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { HeardEvent } from "@/lib/places/HeardEvent";
import { moveTerms } from "@/lib/places/moveCost";
import { layOutNeck } from "@/lib/places/neck";
import type { Place, TermName } from "@/lib/places/Place";
import type { PlacedSequence } from "@/lib/places/PlacedSequence";
import { placeSequence } from "@/lib/places/placeSequence";
import { spotOf } from "@/lib/places/Spot";
import { USUAL_WEIGHTS } from "@/lib/places/weights";

const G = { tonic: "G", mode: "major" } as const;
const at = (startSec: number, event: Omit<HeardEvent, "startSec" | "endSec">): HeardEvent => ({
  startSec,
  endSec: startSec + 0.5,
  ...event,
});
const write = ({ fret, changes, strings }: Place) => `${fret}${changes.join("")} on ${strings.join("-")}`;
const indexOf = ({ events }: PlacedSequence, event: number, where: string) => {
  const index = events[event]!.candidates.findIndex((place) => write(place) === where);
  if (index < 0) throw new Error(`${where} is not among the places`);
  return index;
};

const parts = fc.array(
  fc.record({
    notesMidi: fc.constantFrom([62], [67], [62, 71], [64, 72], [60, 64, 67], [55, 59, 62, 67], [20]),
    gapSec: fc.double({ min: 0.1, max: 2, noNaN: true }),
    chordLabel: fc.option(fc.constantFrom("G:maj", "C:maj", "D:7"), { nil: undefined }),
    glide: fc.option(fc.constantFrom("oblique" as const, "parallel" as const), { nil: undefined }),
  }),
  { minLength: 1, maxLength: 5 },
);

describe("what makes up a candidate's cost", () => {
  it("adds up to it, each name once, for every candidate", () => {
    fc.assert(
      fc.property(parts, (events) => {
        let startSec = 0;
        const heard = events.map(({ gapSec, ...event }) => {
          startSec += gapSec;
          return at(startSec, event);
        });
        const placed = placeSequence(E9, heard, { key: G });
        const explained = placed.events.flatMap(({ candidates }, event) =>
          candidates.map(({ cost }, candidate) => ({ cost, ...placed.explain(event, candidate) })),
        );
        // One look at all of them: thousands of expectations take longer than the search.
        expect(
          explained.filter(({ cost, terms, reason }) => {
            const sum = terms.reduce((so, term) => so + term.cost, 0);
            const isOnce = new Set(terms.map(({ name }) => name)).size === terms.length;
            return !(Math.abs(sum - cost) < 1e-9 && isOnce && /^[A-Z].*\.$/.test(reason));
          }),
        ).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  it("is of the cheapest way through it: the moves there and on, and as the rest what lies elsewhere", () => {
    const events = [
      at(0, { notesMidi: [62, 71] }),
      at(1, { notesMidi: [64, 72] }),
      at(2, { notesMidi: [62, 71] }),
    ];
    const placed = placeSequence(E9, events);
    const candidate = indexOf(placed, 1, "3AB on 5-3");
    const chosen = placed.chosenThrough(1, candidate);
    const [before, here, after] = chosen.map((index, event) => {
      const place = placed.events[event]!.candidates[index!]!;
      return spotOf(layOutNeck(E9), place);
    });
    const moment = { timeSec: 1, glide: null };
    const moves = [
      ...moveTerms(before!, here!, moment, USUAL_WEIGHTS),
      ...moveTerms(here!, after!, moment, USUAL_WEIGHTS),
    ];
    const { terms } = placed.explain(1, candidate);
    const term = (name: TermName) => terms.find((each) => each.name === name)?.cost ?? 0;
    for (const name of ["bar travel", "pedals and levers", "grip change"] as const) {
      const wanted = moves.reduce((sum, each) => sum + (each.name === name ? each.cost : 0), 0);
      expect(term(name)).toBeCloseTo(wanted, 9);
    }
    expect(term("pedals and levers")).toBeGreaterThan(0);
  });
});

/**
 * What hands and feet do while strings ring. On E9 at fret 3 string 5 is D4 (62), raised to E4 (64) by the A pedal, string 4
 * G4 (67) (b0b.com/wp/copedents/understanding-e9th). A down at 12 sounds as nothing at 14, let off while the bar slides:
 * playpedalsteel.com, left foot technique.
 */
describe("a glide in words", () => {
  const reason = (from: HeardEvent, to: HeardEvent, before: string, where: string) => {
    const [fret, changes, strings] = /^(\d+)(\w*) on ([\d-]+)$/.exec(before)!.slice(1) as [
      string,
      string,
      string,
    ];
    const place = { fret: Number(fret), changes: [...changes], strings: strings.split("-").map(Number) };
    const placed = placeSequence(E9, [{ ...from, place }, to]);
    const { reason: said, terms } = placed.explain(1, indexOf(placed, 1, where));
    return { said, heard: terms.find(({ name }) => name === "glide heard")?.cost ?? 0 };
  };
  const glides = (from: number) => ({ from, forSec: 0.5, glides: true });
  const rings = (from: number) => ({ from, forSec: 0.5, glides: false });

  it("tells a press from a release", () => {
    const low = at(0, { notesMidi: [62, 67] });
    const high = at(0, { notesMidi: [64, 67] });
    const up = at(0.5, { notesMidi: [64, 67], soundsOn: [glides(0), rings(1)], glide: "oblique" });
    const down = at(0.5, { notesMidi: [62, 67], soundsOn: [glides(0), rings(1)], glide: "oblique" });
    const press = reason(low, up, "3 on 5-4", "3A on 5-4");
    expect(press.said).toMatch(/^Bar stays at 3, press A while it rings\. This is how the glide was heard\./);
    expect(press.heard).toBe(USUAL_WEIGHTS.obliqueGlide);
    const release = reason(high, down, "3A on 5-4", "3 on 5-4");
    expect(release.said).toMatch(/^Bar stays at 3, pedals off while it rings\./);
    expect(release.heard).toBe(USUAL_WEIGHTS.obliqueGlide);
  });

  it("tells a slide, where all move alike, from either", () => {
    const from = at(0, { notesMidi: [62, 67] });
    const to = at(0.5, { notesMidi: [64, 69], soundsOn: [glides(0), glides(1)], glide: "parallel" });
    const slide = reason(from, to, "3 on 5-4", "5 on 5-4");
    expect(slide.said).toMatch(
      /^Slide up two frets to 5, nothing pressed\. This is how the glide was heard\./,
    );
    expect(slide.heard).toBe(USUAL_WEIGHTS.parallelGlide);
    const pressed = reason(from, to, "3 on 5-4", "3C on 5-4");
    expect(pressed.heard).toBe(0);
  });

  it("tells a slide with release, by which one voice stays where it is", () => {
    // String 5: 59 + 12 + 2 = 73 with A at 12, and 59 + 14 = 73 without at 14; string 4 goes from 76 to 78.
    const from = at(0, { notesMidi: [73, 76] });
    const to = at(0.5, { notesMidi: [73, 78], soundsOn: [rings(0), glides(1)], glide: "oblique" });
    const both = reason(from, to, "12A on 5-4", "14 on 4-5");
    expect(both.said).toMatch(
      /^Slide up two frets to 14, pedals off on the way\. String 5 keeps its note all the same\. This is how/,
    );
    expect(both.heard).toBe(USUAL_WEIGHTS.slideWithChange);
  });

  it("says so where nothing is heard of it at all", () => {
    const from = at(0, { notesMidi: [73] });
    const to = at(0.5, { notesMidi: [73], soundsOn: [rings(0)] });
    expect(reason(from, to, "12A on 5", "14 on 5").said).toMatch(
      /^Slide up two frets to 14, pedals off on the way\. String 5 keeps its note all the same\./,
    );
  });
});
