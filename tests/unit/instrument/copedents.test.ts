import { describe, expect, it } from "vitest";
import { readChart } from "@/lib/instrument/chart/readChart";
import { slotToCode } from "@/lib/instrument/chart/slotCode";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { COPEDENTS, findCopedent } from "@/lib/instrument/copedentCatalog";
import { C6 } from "@/lib/instrument/copedents/c6";
import { E9 } from "@/lib/instrument/copedents/e9";
import { UNIVERSAL } from "@/lib/instrument/copedents/universal";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { engagedStages } from "@/lib/instrument/stages";
import { parsePitchName } from "@/lib/theory/spelling";
import changes from "../../fixtures/steel/changes.json";
import variants from "../../fixtures/steel/changeVariants.json";
import tunings from "../../fixtures/steel/tunings.json";

const midi = (name: string) => parsePitchName(name).midi;

/** The sources stand beside the rows in tests/fixtures/steel. */
describe("the shipped copedents", () => {
  it("are those of the published tunings, each under an id and a name of its own, with its source", () => {
    expect(COPEDENTS.map(({ id }) => id)).toEqual(tunings.map(({ copedent }) => copedent));
    expect(new Set(COPEDENTS.map(({ name }) => name)).size).toBe(COPEDENTS.length);
    for (const { source } of COPEDENTS) expect(source).not.toBe("");
    expect(findCopedent("nonesuch")).toBeNull();
  });

  it.each(tunings)("$copedent is tuned $open ($source)", ({ copedent, open }) => {
    expect(findCopedent(copedent)?.strings.map((string) => string.openMidi)).toEqual(open.map(midi));
  });

  it.each(changes)("$copedent: $stage stands at $slot and does $moves ($source)", (row) => {
    const copedent = findCopedent(row.copedent);
    const [stage] = engagedStages(copedent!, [row.stage]);
    expect(slotToCode(stage!.change.slot)).toBe(row.slot);
    expect(Object.keys(stage!.pulls).map(Number)).toEqual(
      row.moves.map(({ string }) => string).toSorted((a, b) => a - b),
    );
    for (const { string, from, to } of row.moves) {
      expect(effectiveMidi(copedent!, string, 0, [])).toBe(midi(from));
      expect(effectiveMidi(copedent!, string, 0, [row.stage])).toBe(midi(to));
    }
  });

  it("have no pedal or lever that the rows leave out", () => {
    for (const copedent of COPEDENTS) {
      const listed = changes.filter((row) => row.copedent === copedent.id).map((row) => row.stage);
      const own = copedent.changes.flatMap(({ id, stages }) => stages.map((_, at) => id.repeat(at + 1)));
      // The levers of the other pedal order are those of E9, which has its own rows.
      if (copedent.id !== "e9-cba") expect(own.toSorted()).toEqual(listed.toSorted());
    }
  });

  it.each(variants)("E9 takes $id at $slot with $moves ($source)", ({ id, slot, moves }) => {
    const chart = writeChart(E9);
    const others = chart.changes?.filter((change) => change.id !== id && change.slot !== slot) ?? [];
    const pulls = Object.fromEntries(moves.map(({ string, from, to }) => [string, midi(to)! - midi(from)!]));
    const own = readChart({
      ...chart,
      footRest: [],
      changes: [...others, { id, slot, moves: pulls }],
    });
    for (const { string, to } of moves) expect(effectiveMidi(own, string, 0, [id])).toBe(midi(to));
  });

  it.each(COPEDENTS)("$id has strings that give a pitch from open to the last fret", (copedent) => {
    for (const { number, openMidi, beginsAtFret = 0 } of copedent.strings) {
      expect(effectiveMidi(copedent, number, 0, [])).toBe(openMidi);
      expect(effectiveMidi(copedent, number, copedent.fretCount, [])).toBe(
        openMidi + copedent.fretCount - beginsAtFret,
      );
    }
  });
});

describe("E9", () => {
  // steelguitaramerica.com/instruction/tuning (range; the top with 24 frets and the B pedal is calculated).
  it("reaches from B2 to A6 and is re-entrant at the top", () => {
    expect(Math.min(...E9.strings.map((string) => string.openMidi))).toBe(midi("B2"));
    expect(effectiveMidi(E9, 3, 24, ["B"])).toBe(midi("A6"));
    const [first, second, third, fourth] = E9.strings.map((string) => string.openMidi);
    expect(first).toBeLessThan(third!);
    expect(second).toBeLessThan(fourth!);
  });

  // Tuning by harmonics, henrysenior.co.uk (legend); the figures are calculated from the tuning.
  it("has strings that agree where players tune them by one another", () => {
    expect(effectiveMidi(E9, 4, 12, [])).toBe(effectiveMidi(E9, 8, 12, [])! + 12);
    expect(effectiveMidi(E9, 5, 5, [])).toBe(effectiveMidi(E9, 4, 0, []));
  });

  // henrysenior.co.uk/wordpress/blog/page/13: half of A with F makes the sixth's major seventh, A let off its seventh.
  it("has the sevenths of C# on string 5 under F", () => {
    const chart = writeChart(E9);
    const stages = [
      { 5: 1, 10: 1 },
      { 5: 2, 10: 2 },
    ];
    const own = readChart({
      ...chart,
      changes: chart.changes?.map((change) => (change.id === "A" ? { id: "A", slot: "P1", stages } : change)),
    });
    const root = effectiveMidi(own, 5, 0, ["AA", "F"])!;
    expect(root).toBe(midi("C#4"));
    expect(root - effectiveMidi(own, 5, 0, ["A", "F"])!).toBe(1);
    expect(root - effectiveMidi(own, 5, 0, ["F"])!).toBe(2);
  });
});

// larrybell.org/id24.htm: strings 4 to 12 of the universal are strings 2 to 10 of C6 a half step lower.
describe("the universal with its lock on", () => {
  it.each(["none", "P4", "P5", "P6", "P7", "P8"])("is C6 a half step lower with %s", (pedal) => {
    const pedals = pedal === "none" ? [] : [pedal];
    for (const { number } of C6.strings.filter((string) => string.number >= 2)) {
      expect(effectiveMidi(UNIVERSAL, number + 2, 0, ["L", ...pedals])).toBe(
        effectiveMidi(C6, number, 0, pedals)! - 1,
      );
    }
  });

  // b0b.com/tunings: pedal 6 brings the lowered string 4 back to E, and takes string 8 two half steps below E.
  it("comes back to E on string 4 by pedal 6, under the lever as under the lock", () => {
    for (const lowered of ["L", "E"]) {
      expect(effectiveMidi(UNIVERSAL, 4, 0, [lowered])).toBe(midi("D#4"));
      expect(effectiveMidi(UNIVERSAL, 4, 0, [lowered, "P6"])).toBe(midi("E4"));
      expect(effectiveMidi(UNIVERSAL, 8, 0, [lowered, "P6"])).toBe(midi("D3"));
    }
  });
});

// firmchronicle.com banjo notes (fifth string); that it begins at fret 5 is from memory.
describe("the banjo", () => {
  it("has a fifth string that sounds open up to fret 5", () => {
    const banjo = findCopedent("banjo")!;
    expect(effectiveMidi(banjo, 5, 0, [])).toBe(midi("G4"));
    expect(effectiveMidi(banjo, 5, 3, [])).toBeNull();
    expect(effectiveMidi(banjo, 5, 5, [])).toBe(midi("G4"));
    expect(effectiveMidi(banjo, 5, 7, [])).toBe(midi("A4"));
  });
});
