import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { layOutNeck } from "@/lib/places/neck";
import { placeSequence } from "@/lib/places/placeSequence";
import { differsInKind, rankPlaces } from "@/lib/places/rankPlaces";
import type { SlantFamily } from "@/lib/places/slants/Slant";
import { findSlants } from "@/lib/places/slants/slantCandidates";
import { USUAL_WEIGHTS } from "@/lib/places/weights";
import { GUITAR, LAP_C6 } from "../../../fixtures/fretted/necks";

const lap = layOutNeck(LAP_C6);

const pitchesAt = (copedent: Copedent, strings: number[], frets: number[]) =>
  stoppedPitches(copedent, { fret: Math.min(...frets), frets, strings, changes: [] }) as number[];

describe("the families of slants", () => {
  // horseshoemagnets.net number-system/slant-theory (R. Aiello): forward makes m3 M3 and m6 M6, reverse M3 m3 and M6 m6.
  // Strings of the lap steel in C6 (leylines.no-ip.org t=367418); intervals in semitones.
  it.each<[string, number[], number, SlantFamily, number]>([
    ["minor third to major third", [2, 3], 3, "forward", 4],
    ["minor third to major third", [4, 5], 3, "forward", 4],
    ["minor sixth to major sixth", [2, 5], 8, "forward", 9],
    ["major third to minor third", [1, 2], 4, "reverse", 3],
    ["major third to minor third", [5, 6], 4, "reverse", 3],
    ["major sixth to minor sixth", [1, 4], 9, "reverse", 8],
    ["major sixth to minor sixth", [3, 6], 9, "reverse", 8],
  ])("%s on strings %j: straight %i, %s %i", (_, strings, straight, family, slanted) => {
    for (const fret of [3, 5, 8, 12]) {
      const [high, low] = pitchesAt(LAP_C6, strings, [fret, fret]);
      expect(high! - low!).toBe(straight);
      // The lower string goes one fret up where the slant is reverse, one down where it is forward.
      const notes = [high!, low! + (family === "reverse" ? 1 : -1)];
      expect(notes[0]! - notes[1]!).toBe(slanted);
      const spot = findSlants(lap, notes).find(
        ({ hold, frets }) => hold.strings.join() === strings.join() && frets![0] === fret,
      );
      expect(spot?.slant).toEqual({ family, span: 1 });
    }
  });

  it("split: two strings straight under the nose, a third a fret behind, as for G9 on C6", () => {
    // Same source: frets 5 and 5 on the strings E and C, 4 on G.
    const notes = pitchesAt(LAP_C6, [1, 2, 4], [5, 5, 4]);
    expect(notes).toEqual([69, 65, 59]);
    const spot = findSlants(lap, notes).find(({ hold }) => hold.strings.join() === "1,2,4");
    expect(spot).toMatchObject({ fret: 4, frets: [5, 5, 4], slant: { family: "split", span: 1 } });
  });

  it("three strings in a line, at even steps; at uneven ones there is none", () => {
    const found = (frets: number[], strings = [1, 2, 3]) =>
      findSlants(lap, pitchesAt(LAP_C6, strings, frets)).some(
        (spot) => spot.hold.strings.join() === strings.join() && spot.frets!.join() === frets.join(),
      );
    expect(found([7, 6, 5])).toBe(true);
    expect(found([5, 6, 7])).toBe(true);
    expect(found([7, 6, 5], [1, 3, 5])).toBe(true);
    expect(found([7, 6, 5], [1, 2, 4])).toBe(false);
    expect(found([7, 6, 6])).toBe(false);
    expect(found([5, 6, 5])).toBe(false);
    expect(found([7, 6, 4])).toBe(false);
  });
});

describe("slant candidates", () => {
  /** Whether points of string and fret lie in one line, or two neighbours straight with a third behind. */
  const isSlant = (held: readonly { string: number; fret: number }[]) => {
    const [a, b, c] = [...held].sort((one, other) => one.string - other.string);
    const frets = held.map(({ fret }) => fret);
    const span = Math.max(...frets) - Math.min(...frets);
    if (span < 1 || span > 2 || Math.min(...frets) < 1) return false;
    if (c === undefined) return true;
    const cross = (b!.fret - a!.fret) * (c.string - a!.string) - (c.fret - a!.fret) * (b!.string - a!.string);
    return cross === 0 || (b!.string === a!.string + 1 && a!.fret === b!.fret && c.fret < b!.fret);
  };

  it("are just those that trying every fret on every string gives", () => {
    const notes = fc.uniqueArray(fc.integer({ min: 48, max: 84 }), { minLength: 2, maxLength: 3 });
    fc.assert(
      fc.property(notes, (wanted) => {
        const all: string[] = [];
        const goOn = (held: { string: number; fret: number }[]) => {
          const note = wanted[held.length];
          if (note === undefined) {
            if (isSlant(held)) all.push(held.map(({ string, fret }) => `${string}:${fret}`).join(" "));
            return;
          }
          for (const { number, openMidi } of LAP_C6.strings) {
            for (let fret = 0; fret <= LAP_C6.fretCount; fret += 1)
              if (openMidi + fret === note && held.every(({ string }) => string !== number))
                goOn([...held, { string: number, fret }]);
          }
        };
        goOn([]);
        const found = findSlants(lap, wanted).map(({ hold, frets }) =>
          hold.strings.map((string, at) => `${string}:${frets![at]}`).join(" "),
        );
        expect([...found].sort()).toEqual(all.sort());
      }),
    );
  });

  it("sound the notes asked for, pedals and levers among them", () => {
    const neck = layOutNeck(E9);
    const notes = fc.uniqueArray(fc.integer({ min: 52, max: 80 }), { minLength: 2, maxLength: 3 });
    fc.assert(
      fc.property(notes, (wanted) => {
        for (const { fret, frets, hold } of findSlants(neck, wanted).slice(0, 200)) {
          const { strings, set } = hold;
          expect(stoppedPitches(E9, { fret, frets, strings, changes: set.ids })).toEqual(wanted);
        }
      }),
      { numRuns: 30 },
    );
  });

  it("are none for one note, for four, and under fingers", () => {
    expect(findSlants(lap, [64])).toEqual([]);
    expect(findSlants(lap, [48, 52, 55, 59])).toEqual([]);
    expect(findSlants(layOutNeck(GUITAR), [64, 60])).toEqual([]);
  });
});

describe("slants in the search", () => {
  const forward = pitchesAt(LAP_C6, [2, 3], [5, 4]);

  it("are never tried unless asked for", () => {
    for (const [copedent, notes] of [
      [LAP_C6, forward],
      [E9, [64, 60]],
    ] as const) {
      const events = [{ startSec: 0, endSec: 1, notesMidi: notes }];
      const plain = placeSequence(copedent, events).events[0]!.candidates;
      expect(plain.filter(({ frets }) => frets)).toEqual([]);
      expect(rankPlaces(copedent, notes).filter(({ frets }) => frets)).toEqual([]);
      const asked = placeSequence(copedent, events, { slants: true }).events[0]!.candidates;
      expect(asked.filter(({ frets }) => frets).length).toBeGreaterThan(0);
      expect(asked.filter(({ frets }) => !frets)).toHaveLength(plain.length);
    }
  });

  it("say how the bar lies", () => {
    const ranked = rankPlaces(LAP_C6, forward, { slants: true });
    const slanted = ranked.find(({ strings, frets }) => strings.join() === "2,3" && frets?.join() === "5,4");
    expect(slanted!.reason).toMatch(/^Slant the bar forward, 5 on string 2 and 4 on string 3/);
    const reverse = rankPlaces(LAP_C6, pitchesAt(LAP_C6, [1, 2], [5, 6]), { slants: true });
    expect(reverse.map(({ reason }) => reason).join()).toContain(
      "Slant the bar in reverse, 5 on string 1 and 6 on string 2",
    );
    const split = rankPlaces(LAP_C6, [69, 65, 59], { slants: true });
    expect(split.map(({ reason }) => reason).join()).toContain(
      "Split the bar between strings 1 and 2, 5 on string 1, 5 on string 2 and 4 on string 4",
    );
  });

  it("cost more than the same strings straight, and half more again with pedals", () => {
    const slantTerm = (copedent: Copedent, notes: number[], strings: string) =>
      rankPlaces(copedent, notes, { slants: true })
        .find((place) => place.frets && place.strings.join() === strings && place.changes.length === 0)!
        .terms.find(({ name }) => name === "slant")!.cost;
    const onLap = slantTerm(LAP_C6, forward, "2,3");
    // A forward slant of strings 5 and 6 of E9: B and G#, a minor third made major.
    const onPedals = slantTerm(E9, pitchesAt(E9, [5, 6], [5, 4]), "5,6");
    expect(onLap).toBeGreaterThan(0);
    expect(onPedals).toBeCloseTo(1.5 * onLap, 9);
  });

  it("run by lowest fret, fewest changes, then strings in the order of their numbers, 9 before 10", () => {
    const slants = findSlants(layOutNeck(E9), [66, 57]);
    const keys = slants.map(({ fret, hold }) => [fret, hold.set.ids.length, ...hold.strings]);
    const ordered = [...keys].sort((a, b) => {
      const at = a.findIndex((value, index) => value !== b[index]);
      return at < 0 ? 0 : a[at]! - b[at]!;
    });
    expect(keys).toEqual(ordered);
    const isTied = (string: number) =>
      keys.some(([fret, count, first, second]) =>
        keys.some((other) => second === string && `${other}` === `${[fret, count, first, 10]}`),
      );
    expect([9, 8, 7].some(isTied)).toBe(true);
  });

  it("carry the chord in force by the strings that they put in tune, and by no others", () => {
    const slantOn = (notes: number[], strings: string, chordLabel: string) =>
      rankPlaces(LAP_C6, notes, { slants: true, chordLabel }).find(
        (place) => place.frets && place.strings.join() === strings,
      )!;
    const chordTerm = ({ terms }: ReturnType<typeof slantOn>) =>
      terms.find(({ name }) => name === "chord in force")?.cost ?? 0;
    // Frets 5, 5 and 4 on E, C and G give A, F and B, three notes of G9 (same source as above); F and A two of F.
    const split = slantOn([69, 65, 59], "1,2,4", "G:9");
    expect(chordTerm(split)).toBe(USUAL_WEIGHTS.chordMatched);
    expect(split.reason).toContain("The G9 chord lies here.");
    const third = slantOn([69, 65], "2,3", "F:maj");
    expect(chordTerm(third)).toBe(USUAL_WEIGHTS.chordNearlyMatched);
    expect(chordTerm(slantOn([69, 65], "2,3", "C:maj"))).toBe(0);
    const event = { startSec: 0, endSec: 1, notesMidi: [69, 65, 59], chordLabel: "G:9" };
    const placed = placeSequence(LAP_C6, [event], { slants: true });
    placed.events[0]!.candidates.forEach(({ cost }, candidate) => {
      const { terms } = placed.explain(0, candidate);
      expect(terms.reduce((sum, term) => sum + term.cost, 0)).toBeCloseTo(cost, 9);
      expect(terms.map(({ name }) => name)).toContain("chord in force");
    });
  });

  it("give way to a straight place that is as near", () => {
    // Strings 1 and 2 straight at 5, or slanted on others near by.
    const [best] = rankPlaces(LAP_C6, pitchesAt(LAP_C6, [1, 2], [5, 5]), { slants: true });
    expect(best).toMatchObject({ fret: 5, strings: [1, 2] });
    expect(best!.frets).toBeUndefined();
  });

  it("hold to locks: every string within the frets, and a slanted place as a whole", () => {
    const locked = (locks: object) =>
      rankPlaces(LAP_C6, forward, { slants: true, locks }).map(({ strings, frets, fret }) => [
        strings.join(),
        frets?.join() ?? String(fret),
      ]);
    expect(locked({ frets: { from: 4, to: 5 }, grip: [2, 3] })).toEqual([["2,3", "5,4"]]);
    expect(locked({ frets: { from: 4, to: 4 }, grip: [2, 3] })).toEqual([]);
    expect(locked({ place: { fret: 4, frets: [5, 4], strings: [2, 3], changes: [] } })).toEqual([
      ["2,3", "5,4"],
    ]);
    expect(locked({ place: { fret: 5, strings: [2, 3], changes: [] } })).toEqual([]);
  });

  it("lead from place to place in a part: thirds of a scale on two strings, straight and slanted", () => {
    // F major in thirds on strings 2 and 3: the minor ones straight, the major ones slanted forward (calculated from
    // the tuning and the same source).
    const thirds = [
      [65, 62],
      [67, 64],
      [69, 65],
      [70, 67],
      [72, 69],
    ];
    const events = thirds.map((notesMidi, at) => ({ startSec: at, endSec: at + 1, notesMidi }));
    const placed = placeSequence(LAP_C6, events, { slants: true, locks: { grip: [2, 3] } });
    const frets = placed.events.map(({ candidates, chosenIndex }) => {
      const { frets: own, fret } = candidates[chosenIndex!]!;
      return own ?? [fret, fret];
    });
    expect(frets).toEqual([
      [5, 5],
      [7, 7],
      [9, 8],
      [10, 10],
      [12, 12],
    ]);
    for (const [at, { chosenIndex }] of placed.events.entries()) {
      const { terms } = placed.explain(at, chosenIndex!);
      expect(terms.reduce((sum, { cost }) => sum + cost, 0)).toBeCloseTo(placed.totalCost, 9);
    }
    expect(differsInKind(placed.events[0]!.candidates[0]!, placed.events[4]!.candidates[0]!)).toBe(true);
  });
});
