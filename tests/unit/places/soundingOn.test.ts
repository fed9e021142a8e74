import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { candidatePlaces } from "@/lib/places/candidates";
import type { HeardEvent, SoundingOn } from "@/lib/places/HeardEvent";
import { moveCost } from "@/lib/places/moveCost";
import { layOutNeck } from "@/lib/places/neck";
import type { Place } from "@/lib/places/Place";
import type { PlacedSequence } from "@/lib/places/PlacedSequence";
import { placeCost } from "@/lib/places/placeCost";
import { placeSequence } from "@/lib/places/placeSequence";
import { type Spot, spotOf } from "@/lib/places/Spot";
import { USUAL_WEIGHTS as W } from "@/lib/places/weights";

const neck = layOutNeck(E9);

/** The chosen places, strings from the furthest on: `3A on 4-5`. */
function chosen({ events }: PlacedSequence): string[] {
  return events.map(({ chosenIndex, candidates }) => {
    const place = candidates[chosenIndex ?? -1];
    if (place === undefined) return "nowhere";
    const strings = [...place.strings].sort((a, b) => a - b);
    return `${place.fret}${place.changes.join("")} on ${strings.join("-")}`;
  });
}

const rings = (from: number, forSec = 0.5): SoundingOn => ({ from, forSec, glides: false });
const glides = (from: number): SoundingOn => ({ from, forSec: 0.5, glides: true });
const at = (startSec: number, event: Omit<HeardEvent, "startSec" | "endSec">): HeardEvent => ({
  startSec,
  endSec: startSec + 0.5,
  ...event,
});

/** A pair that is picked, then one or both of it glide. */
function pairThen(from: readonly number[], to: readonly number[], glide?: HeardEvent["glide"]): string[] {
  const soundsOn = to.map((midi, note) => (midi === from[note] ? rings(note) : glides(note)));
  const moved = at(0.5, { notesMidi: to, soundsOn, ...(glide && { glide }) });
  // Before it the hand is at fret 3, home in G (pedal steel E9: the un-pedalled G chord lies at fret 3).
  const home = at(-1, { notesMidi: [67], place: { fret: 3, changes: [], strings: [4] } });
  return chosen(placeSequence(E9, [home, at(0, { notesMidi: from }), moved])).slice(1);
}

// Strings, pedals and levers: b0b.com/wp/copedents/understanding-e9th and guitarlicks.net pedal-steel-guitar-basics. At
// fret 3 string 3 is B4 (71), 4 G4 (67), 5 D4 (62), 6 B3 (59), 8 G3 (55). What each move does in the key: calculated from
// those charts.
describe("a glide that was heard", () => {
  it.each([
    ["5 to 6 under the root: the A pedal", [67, 62], [67, 64], ["3 on 4-5", "3A on 4-5"]],
    ["3 to 4 over the root: the B pedal", [71, 67], [72, 67], ["3 on 3-4", "3B on 3-4"]],
    ["1 to 4, two voices by different steps: A and B", [62, 59], [64, 60], ["3 on 5-6", "3AB on 5-6"]],
    ["root down a half step over the held 5: the E lever", [67, 62], [66, 62], ["3 on 4-5", "3E on 4-5"]],
    ["4 let down to 3 under the held 6: the B pedal off", [72, 64], [71, 64], ["3AB on 3-5", "3A on 3-5"]],
  ])("%s", (_, from, to, places) => {
    expect(pairThen(from, to, "oblique")).toEqual(places);
  });

  it("of two voices alike is the bar's; where a pedal was heard, the one that pulls both alike", () => {
    expect(pairThen([67, 62], [69, 64], "parallel")).toEqual(["3 on 4-5", "5 on 4-5"]);
    // The C pedal pulls strings 4 and 5 up a whole step, by the same charts.
    expect(pairThen([67, 62], [69, 64], "oblique")).toEqual(["3 on 4-5", "3C on 4-5"]);
  });

  it("stays on its string, whatever else would be easier", () => {
    const slide = placeSequence(E9, [
      at(0, { notesMidi: [67] }),
      at(0.5, { notesMidi: [79], soundsOn: [glides(0)], glide: "parallel" }),
    ]);
    const [from, to] = slide.events.map(({ candidates, chosenIndex }) => candidates[chosenIndex!]!);
    expect(to!.strings).toEqual(from!.strings);
    expect(to!.fret - from!.fret).toBe(12);
  });

  it("is picked anew where no string gives both pitches, and the rest is placed all the same", () => {
    // From the lowest open string up three octaves: past the last fret of that string.
    const placed = placeSequence(E9, [
      at(0, { notesMidi: [47] }),
      at(0.5, { notesMidi: [83], soundsOn: [glides(0)] }),
    ]);
    expect(chosen(placed)[0]).toMatch(/ on 10$/);
    expect(chosen(placed)[1]).not.toMatch(/ on 10$/);
    expect(Number.isFinite(placed.totalCost)).toBe(true);
  });
});

describe("notes that ring on", () => {
  it("hold the hands to one place, as in tab where strings ring into one another", () => {
    // Picked one after the other at fret 3 and left to ring, each pulled by a pedal while it rings.
    const placed = placeSequence(E9, [
      at(0, { notesMidi: [55] }),
      at(0.5, { notesMidi: [62, 55], soundsOn: [null, rings(0, 2)] }),
      at(0.75, { notesMidi: [64, 55], soundsOn: [glides(0), rings(1, 2)], glide: "oblique" }),
      at(1, { notesMidi: [71, 64, 55], soundsOn: [null, rings(0, 1), rings(1, 1)] }),
      at(1.25, { notesMidi: [72, 64, 55], soundsOn: [glides(0), rings(1), rings(2)], glide: "oblique" }),
    ]);
    expect(chosen(placed)).toEqual(["3 on 8", "3 on 5-8", "3A on 5-8", "3A on 3-5-8", "3AB on 3-5-8"]);
  });

  it("are stopped where the next pick leaves them no place, sooner the shorter they ring", () => {
    const next = (picked: number, string: number, fret: number, forSec: number) => {
      const ringing = (string === 5 ? 59 : 47) + fret;
      return chosen(
        placeSequence(E9, [
          at(0, { notesMidi: [ringing], place: { fret, changes: [], strings: [string] } }),
          at(0.5, { notesMidi: [picked, ringing], soundsOn: [null, rings(0, forSec)] }),
        ]),
      )[1];
    };
    // String 2, D sharp 4 (63), lowered a half step by the D lever at fret 3: 65.
    expect(next(65, 5, 3, 2)).toBe("3D on 2-5");
    expect(next(65, 5, 3, 0.01)).toBe("4A on 5");
    // 48 is on string 10 at fret 1, and no other string goes so low: 49 with it takes two strings that low.
    expect(next(49, 10, 1, 2)).toMatch(/ on \d+$/);
  });

  it("do not count for the picking hand: four may sound where three are picked", () => {
    const chord = placeSequence(E9, [
      at(0, { notesMidi: [55] }),
      at(0.5, { notesMidi: [71, 67, 62, 55], soundsOn: [null, null, null, rings(0, 3)] }),
    ]);
    expect(chosen(chord)).toEqual(["3 on 8", "3 on 3-4-5-8"]);
    const [ringing] = chord.events.slice(1).map(({ candidates, chosenIndex }) => candidates[chosenIndex!]!);
    expect(ringing!.sounding).toHaveLength(4);
    const terms = (placed: PlacedSequence, event: number) =>
      placed.explain(event, placed.events[event]!.chosenIndex!).terms.map(({ name }) => name);
    expect(terms(chord, 1)).not.toContain("too many for a pick");
    const picked = placeSequence(E9, [at(0, { notesMidi: [71, 67, 62, 55] })]);
    expect(chosen(picked)).toEqual(["3 on 3-4-5-8"]);
    expect(terms(picked, 0)).toContain("too many for a pick");
  });
});

describe("what is known", () => {
  it("is held to: the rest is laid around it", () => {
    const held = { fret: 8, changes: ["A", "F"], strings: [5] };
    // String 5 open B3 (59) with the A pedal at fret 8: 69.
    const placed = placeSequence(E9, [
      at(0, { notesMidi: [69], place: held }),
      at(0.5, { notesMidi: [72, 69], soundsOn: [null, rings(0, 2)] }),
    ]);
    expect(chosen(placed)).toEqual(["8AF on 5", "8A on 4-5"]);
  });
});

/** Three events of which the later sound on from those before, in any way. */
const threeEvents = fc
  .record({
    first: fc.constantFrom([67, 62], [71, 67], [62], [64, 59]),
    picks: fc.array(fc.constantFrom([], [71], [55], [66, 62]), { minLength: 2, maxLength: 2 }),
    moves: fc.array(fc.constantFrom(-1, 0, 0, 1, 2, 9), { minLength: 4, maxLength: 4 }),
    forSec: fc.double({ min: 0.05, max: 2, noNaN: true }),
    glide: fc.constantFrom("oblique" as const, "parallel" as const, undefined),
  })
  .map(({ first, picks, moves, forSec, glide }) => {
    const events: HeardEvent[] = [at(0, { notesMidi: first })];
    picks.forEach((picked, step) => {
      const before = events.at(-1)!.notesMidi;
      const [moved, by] = [before.length - 1, moves[step]!];
      const on = before.slice(0, 3).map((midi, note) => (note === moved ? midi + by : midi));
      const links = on.map((_, note) => ({ from: note, forSec, glides: note === moved && by !== 0 }));
      const event = { notesMidi: [...picked, ...on], soundsOn: [...picked.map(() => null), ...links] };
      events.push(at((step + 1) * 0.4, { ...event, ...(glide && { glide }) }));
    });
    return events;
  });

type Way = {
  place: Place;
  strings: (number | null)[];
  spot: Spot;
  cost: number;
};

/** Every way to play one event, said apart from the code under test. */
function waysOf({ notesMidi, soundsOn = [], startSec, endSec }: HeardEvent): Way[] {
  const notes = notesMidi.map((_, note) => note);
  const picked = notes.filter((note) => !soundsOn[note]);
  return Array.from({ length: 2 ** notes.length }, (_, bits) => notes.filter((note) => (bits >> note) & 1))
    .filter((some) =>
      notes.every((note) => some.includes(note) || (soundsOn[note] && !soundsOn[note].glides)),
    )
    .flatMap((some) => {
      const order = [...picked, ...some.filter((note) => !picked.includes(note))];
      const midis = order.map((note) => notesMidi[note]!);
      const stopped = notes.filter((note) => !some.includes(note));
      const stopping = stopped.map(
        (note) => W.stoppedPerSec * Math.min(soundsOn[note]!.forSec, W.stoppedMostSec),
      );
      return candidatePlaces(neck, midis, { pickedCount: picked.length }).map((place) => {
        const spot = spotOf(neck, place, picked.length);
        const moment = { key: undefined, lengthSec: endSec - startSec, agreement: null };
        const cost = placeCost(spot, moment, W) + stopping.reduce((sum, each) => sum + each, 0);
        const strings = notes.map((note) => place.strings[order.indexOf(note)] ?? null);
        return { place, strings, spot, cost };
      });
    });
}

function wayCost(before: Way, now: Way, event: HeardEvent): number {
  let broken = 0;
  for (const [note, link] of (event.soundsOn ?? []).entries()) {
    const string = now.strings[note] ?? null;
    if (!link || string === null || before.strings[link.from] === string) continue;
    if (!link.glides) return Number.POSITIVE_INFINITY;
    broken += 1;
  }
  const moment = { timeSec: 0.4, glide: broken > 0 ? null : (event.glide ?? null) };
  return broken * W.brokenGlide + moveCost(before.spot, now.spot, moment, W);
}

describe("placing what sounds on", () => {
  it("is never dearer than any other way to play it, and costs what it says", () => {
    fc.assert(
      fc.property(threeEvents, (events) => {
        const placed = placeSequence(E9, events);
        const [first = [], second = [], third = []] = events.map(waysOf);
        const toThird = second.map((b) => Math.min(...third.map((c) => wayCost(b, c, events[2]!) + c.cost)));
        const cheapest = Math.min(
          ...first.flatMap((a) =>
            second.map((b, index) => a.cost + wayCost(a, b, events[1]!) + b.cost + toThird[index]!),
          ),
        );
        fc.pre(first.length * second.length * third.length > 0);
        expect(placed.totalCost).toBeCloseTo(cheapest, 9);
        for (const [event, { candidates }] of placed.events.entries()) {
          const dearest = candidates.findIndex(
            ({ cost }) => cost === Math.max(...candidates.map((each) => each.cost)),
          );
          expect(placed.chosenThrough(event, dearest)[event]).toBe(dearest);
        }
      }),
      { numRuns: 40 },
    );
  }, 30_000);
});
