import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { readChart } from "@/lib/instrument/chart/readChart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import { E9, E9_CBA, E9_SMALL } from "@/lib/instrument/copedents/e9";
import { UNIVERSAL } from "@/lib/instrument/copedents/universal";
import { type Stopped, stoppedPitches } from "@/lib/instrument/effectivePitch";
import { feetAndKneesCanHold, holdableSets } from "@/lib/instrument/holdable";
import { effectMap } from "@/lib/instrument/mapByEffect";
import { matchStrings } from "@/lib/instrument/matchStrings";
import { engagedStages } from "@/lib/instrument/stages";
import { anyCopedent } from "./anyCopedent";

const stop = (strings: number[], changes: string[], fret = 3): Stopped => ({ fret, strings, changes });
const mapped = (from: Copedent, to: Copedent, stopped: Stopped) => {
  const result = effectMap(from, to)(stopped);
  if (result.kind === "unplayable") throw new Error(result.reasons.map(({ why }) => why).join(" "));
  return result.stopped;
};
const reasons = (from: Copedent, to: Copedent, stopped: Stopped) => {
  const result = effectMap(from, to)(stopped);
  return result.kind === "unplayable" ? result.reasons.map(({ why }) => why) : [];
};
/** Places of a copedent that can be held, on up to three strings. */
const anyStopped = (copedent: Copedent): fc.Arbitrary<Stopped> =>
  fc.record({
    fret: fc.integer({ min: 0, max: 12 }),
    strings: fc.uniqueArray(fc.constantFrom(...copedent.strings.map((string) => string.number)), {
      minLength: 1,
      maxLength: 3,
    }),
    changes: fc.constantFrom(...holdableSets(copedent)).map((set) => set.map((stage) => stage.id)),
  });
const withIds = (copedent: Copedent, ids: Record<string, string>): Copedent => {
  const chart = writeChart(copedent);
  return readChart({
    ...chart,
    changes: chart.changes?.map((change) => ({ ...change, id: ids[change.id] ?? change.id })),
  });
};

describe("a place on another player's guitar", () => {
  // pedalsteelmusic.com/?p=821 (B. Hempker): a C-B-A player reads A-B-C tab backwards when it goes by pedal places.
  it("keeps its pitches, its letters and its feet in the other pedal order", () => {
    const translate = effectMap(E9, E9_CBA);
    fc.assert(
      fc.property(anyStopped(E9), (stopped) => {
        fc.pre(stoppedPitches(E9, stopped).every((pitch) => pitch !== null));
        expect(translate(stopped)).toEqual({ kind: "mapped", stopped });
        expect(stoppedPitches(E9_CBA, stopped)).toEqual(stoppedPitches(E9, stopped));
      }),
    );
  });

  it("is the same place on one's own", () => {
    fc.assert(
      fc.property(
        anyCopedent.chain((copedent) => fc.tuple(fc.constant(copedent), anyStopped(copedent))),
        ([copedent, stopped]) => {
          fc.pre(stoppedPitches(copedent, stopped).every((pitch) => pitch !== null));
          expect(effectMap(copedent, copedent)(stopped)).toEqual({ kind: "mapped", stopped });
        },
      ),
      { numRuns: 60 },
    );
  });

  it("sounds the same and can be held, or there is no such place", () => {
    fc.assert(
      fc.property(
        fc
          .tuple(anyCopedent, anyCopedent)
          .map(([one, other]): [Copedent, Copedent] => [
            one,
            // Strings tuned alike in part, so that something can be mapped.
            { ...other, strings: one.strings.slice(0, other.strings.length), changes: other.changes },
          ])
          .chain(([one, other]) => fc.tuple(fc.constant(one), fc.constant(other), anyStopped(one))),
        ([one, other, stopped]) => {
          const pitches = stoppedPitches(one, stopped);
          const result = effectMap(one, other)(stopped);
          if (result.kind === "mapped") {
            expect(stoppedPitches(other, result.stopped)).toEqual(pitches);
            expect(feetAndKneesCanHold(engagedStages(other, result.stopped.changes))).toBe(true);
            return;
          }
          const strings = stopped.strings.flatMap((string) => matchStrings(one, other).get(string) ?? []);
          const some = holdableSets(other).some((set) => {
            const changes = set.map((stage) => stage.id);
            const there = stoppedPitches(other, { ...stopped, strings, changes });
            return strings.length === pitches.length && there.every((pitch, at) => pitch === pitches[at]);
          });
          expect(some && !pitches.includes(null) && stopped.fret <= other.fretCount).toBe(false);
          expect(result.reasons.length).toBeGreaterThan(0);
        },
      ),
    );
  });

  // Letters in use: D lowers the Es (steelguitarforum.com t=184788), E the second string (playsteelguitar.com).
  it("goes by what the letters do", () => {
    const theirs = withIds(E9, { E: "D", D: "E", F: "K2" });
    expect(mapped(theirs, E9, stop([4, 8], ["D"])).changes).toEqual(["E"]);
    expect(mapped(theirs, E9, stop([2], ["EE"])).changes).toEqual(["DD"]);
    expect(mapped(E9, theirs, stop([4, 5], ["A", "F"])).changes).toEqual(["A", "K2"]);
  });

  it("keeps down what no string held feels, where the other guitar has it", () => {
    expect(mapped(E9, E9_CBA, stop([5], ["A", "B"])).changes).toEqual(["A", "B"]);
    expect(mapped(E9, E9_SMALL, stop([5], ["A", "X"])).changes).toEqual(["A"]);
  });

  it("finds another pedal that does the same to the strings held", () => {
    const noA = readChart({ ...writeChart(E9), changes: writeChart(E9).changes?.slice(1), footRest: [] });
    expect(mapped(E9, noA, stop([5], ["A"])).changes).toEqual(["C"]);
    expect(reasons(E9, noA, stop([10], ["A"]))[0]).toMatch(/^String 10 cannot go up a whole step on E9/);
  });

  it("goes to the string that is tuned alike", () => {
    expect(mapped(E9, UNIVERSAL, stop([8, 10], ["A"]))).toEqual(stop([8, 9], ["A"]));
    expect(mapped(UNIVERSAL, E9, stop([9], ["V"]))).toEqual(stop([10], ["V"]));
  });

  it("says which string there is none for", () => {
    expect(reasons(E9, UNIVERSAL, stop([8, 9], []))).toEqual([
      "String 9 is tuned to D3, and Universal, twelve strings, E9 and B6 has no such string.",
    ]);
    const banjo = findCopedent("banjo")!;
    expect(reasons(banjo, findCopedent("lap-c6a7-8")!, stop([5], [], 7))[0]).toContain("G4 from fret 5 on");
    expect(reasons(E9, E9, stop([12], []))).toEqual([`String 12 is not on ${E9.name}.`]);
  });

  it("says which string lacks which move", () => {
    expect(reasons(E9, E9_SMALL, stop([6, 8], ["X", "B"]))).toEqual([
      `String 6 cannot go down a half step on ${E9_SMALL.name}.`,
    ]);
  });

  it("says what cannot be held together", () => {
    const apart = readChart({
      strings: [64, 59],
      changes: [
        { id: "A", slot: "P1", moves: { "1": 2 } },
        { id: "B", slot: "P5", moves: { "2": 1 } },
      ],
    });
    const beside = readChart({
      ...writeChart(apart),
      changes: [{ id: "Q", slot: "P1", moves: { "1": 2, "2": 1 } }],
    });
    expect(reasons(beside, apart, stop([1, 2], ["Q"]))).toEqual([
      `String 1 cannot go up a whole step on ${apart.name} while the others are held as they are.`,
      `String 2 cannot go up a half step on ${apart.name} while the others are held as they are.`,
    ]);
    expect(mapped(beside, apart, stop([1], ["Q"])).changes).toEqual(["A"]);
  });

  it("says where the neck ends, and where its own pitch was not sure", () => {
    const [resonator, lap] = [findCopedent("resonator-g")!, findCopedent("open-g")!];
    expect(reasons(lap, resonator, stop([1, 2], [], 20))).toHaveLength(2);
    expect(reasons(lap, resonator, { ...stop([1, 2], [], 18), frets: [20, 18] })).toEqual([
      `String 1 is held past the last fret of ${resonator.name}, 19.`,
    ]);
    const unsplit = { ...E9, splits: [] };
    expect(reasons(unsplit, E9, stop([5], ["A", "V"]))[0]).toContain("no dependable pitch");
  });

  it("keeps the frets of a slant", () => {
    const slant: Stopped = { fret: 5, frets: [6, 5], strings: [4, 5], changes: [] };
    expect(mapped(E9, E9_CBA, slant)).toEqual(slant);
  });
});
