import { describe, expect, it } from "vitest";
import { readChart } from "@/lib/instrument/chart/readChart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { chordStrings, combinationChord, everyCombinationChord } from "@/lib/instrument/combinationChord";
import { COPEDENTS, findCopedent } from "@/lib/instrument/copedentCatalog";
import { C6 } from "@/lib/instrument/copedents/c6";
import { E9 } from "@/lib/instrument/copedents/e9";
import { holdableSets } from "@/lib/instrument/holdable";
import { openHome } from "@/lib/instrument/openHome";
import { parseHarte } from "@/lib/theory/harte";
import chordFunctions from "../../fixtures/steel/chordFunctions.json";

const named = (...of: Parameters<typeof combinationChord>) =>
  Object.fromEntries(combinationChord(...of).names.map(({ label, number }) => [label, number]));

describe("the chord of a combination", () => {
  it.each(chordFunctions)("$engaged on $strings is $names ($source)", ({ engaged, strings, names }) => {
    expect(named(E9, engaged, strings)).toEqual(names);
  });

  // henrysenior.co.uk/wordpress/blog/page/13 (half pedalling): augmented alone, minor with B.
  it("is augmented with half of pedal A, and minor with B as well", () => {
    const chart = writeChart(E9);
    const stages = [
      { 5: 1, 10: 1 },
      { 5: 2, 10: 2 },
    ];
    const half = readChart({
      ...chart,
      changes: chart.changes?.map((change) => (change.id === "A" ? { id: "A", slot: "P1", stages } : change)),
    });
    expect(named(half, ["A"])).toEqual({ "E:aug": "1+", "G#:aug": "3+", "C:aug": "b6+" });
    expect(named(half, ["A", "B"])).toEqual({ "A:min": "4-" });
  });

  it("is asked of the grips' strings, or of all where no grips are known", () => {
    expect(chordStrings(E9)).toEqual([3, 4, 5, 6, 8, 10]);
    expect(chordStrings(C6)).toHaveLength(10);
    expect(named(E9, ["A", "B"])).toEqual({ "A:maj": "4" });
  });

  // steelc6th.com/tabs/c6th_pedal_steel (D. Stewart) has the pedals; what they make of all ten strings is calculated.
  it.each([
    ["P4", { "C:maj7(11)": "1maj7(11)" }],
    ["P5", { "D:11": "211" }],
    ["P6", { "F:9": "49", "C:min6(11)": "1-6(11)" }],
    ["P8", { "A:7(#9)": "67(#9)" }],
  ])("is told on C6 for %s", (pedal, names) => {
    expect(named(C6, [pedal])).toEqual(names);
  });

  // b0b.com/wp/copedents/understanding-e9th: B and C give F# minor, which strings 8 and 10 are no part of.
  it("is told for each grip", () => {
    const [high, , low] = E9.grips.map((grip) => combinationChord(E9, ["B", "C"], grip));
    expect(high).toMatchObject({ strings: [3, 4, 5], names: [{ label: "F#:min", number: "2-" }] });
    expect(low?.names).not.toEqual(high?.names);
  });

  it("leaves out strings without a dependable pitch, and says so", () => {
    const unsplit = { ...E9, splits: [] };
    expect(combinationChord(unsplit, ["A", "V"])).toMatchObject({
      strings: [3, 4, 6, 8],
      unsureStrings: [5, 10],
    });
  });

  it("has no number where the open strings hold no triad", () => {
    const mandolin = findCopedent("mandolin")!;
    expect(combinationChord(mandolin, []).names.every(({ number }) => number === null)).toBe(true);
  });

  it.each(COPEDENTS)(
    "is told for every combination of $id that can be held, and names the notes",
    (copedent) => {
      const all = everyCombinationChord(copedent);
      expect(all).toHaveLength(holdableSets(copedent).length);
      const lengths = all.map(({ changes }) => changes.length);
      expect(lengths).toEqual(lengths.toSorted((a, b) => a - b));
      for (const { names } of all)
        for (const { label } of names) expect(parseHarte(label)?.pitchClasses.length).toBeGreaterThan(0);
    },
  );
});

describe("the home of the open strings", () => {
  // The tunings' own names; of C6/A7, C13 and E13 the letter that stands first.
  it.each([
    ["e9", "E"],
    ["c6", "C"],
    ["u12", "E"],
    ["lap-c6", "C"],
    ["lap-c6-8", "C"],
    ["lap-c6a7-8", "C"],
    ["lap-c6a7-8-low", "C"],
    ["lap-c13-8", "C"],
    ["lap-a6-8", "A"],
    ["lap-e13", "E"],
    ["lap-e13-10", "E"],
    ["open-d", "D"],
    ["open-e", "E"],
    ["resonator-g", "G"],
    ["open-g", "G"],
    ["open-a", "A"],
    ["banjo", "G"],
  ])("of %s is %s major", (id, tonic) => {
    expect(openHome(findCopedent(id)!)).toEqual({ tonic, mode: "major" });
  });

  it("is minor where they are tuned to a minor chord", () => {
    expect(openHome(readChart({ strings: [62, 57, 53, 50, 45, 38] }))).toEqual({ tonic: "D", mode: "minor" });
  });

  it("is none on a mandolin", () => {
    expect(openHome(findCopedent("mandolin")!)).toBeNull();
  });
});
