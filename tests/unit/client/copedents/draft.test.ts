import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ChartDraft } from "@/lib/client/copedents/ChartDraft";
import { fieldAt } from "@/lib/client/copedents/ChartField";
import {
  addChange,
  addCombination,
  addStage,
  addString,
  type DraftEdit,
  moveChange,
  moveString,
  removeChange,
  removeCombination,
  removeStage,
  removeString,
  setChange,
  setFields,
  setMove,
  setString,
  toggleSplit,
} from "@/lib/client/copedents/draftEdits";
import { openDraft } from "@/lib/client/copedents/openDraft";
import { readDraft } from "@/lib/client/copedents/readDraft";
import type { Copedent } from "@/lib/instrument/Copedent";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { COPEDENTS } from "@/lib/instrument/copedentCatalog";
import { E9 } from "@/lib/instrument/copedents/e9";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";

const CHART = writeChart(E9);
const edited = (...edits: DraftEdit[]): ChartDraft =>
  edits.reduce((draft, edit) => edit(draft), openDraft(CHART));
const good = (draft: ChartDraft): Copedent => {
  const { copedent, faults } = readDraft(draft);
  expect([...faults]).toEqual([]);
  return copedent!;
};
const changeOf = (copedent: Copedent, id: string) => copedent.changes.find((change) => change.id === id)!;

describe("a chart in hand", () => {
  it.each(COPEDENTS.map((copedent) => [copedent.id, copedent] as const))(
    "%s comes back from the form as it went in",
    (id, copedent) => {
      const chart = writeChart(copedent);
      const reading = readDraft(openDraft(chart), id);
      expect([...reading.faults]).toEqual([]);
      expect(reading.chart).toEqual(chart);
      expect(reading.copedent).toEqual(copedent);
    },
  );

  it("keeps exceptions and stages through the form", () => {
    const chart = {
      ...CHART,
      combinations: [
        { string: 5, stages: ["A", "V"], semitones: 0 },
        { string: 2, stages: ["DD"], semitones: -2 },
      ],
    };
    expect(readDraft(openDraft(chart)).chart).toEqual(chart);
  });

  it("spells open notes as players of that tuning do", () => {
    expect(openDraft(CHART).strings.map(({ pitch }) => pitch)).toEqual(
      // domain.md 1.1, note names after b0b.com and guitarlicks.net
      ["F#4", "D#4", "G#4", "E4", "B3", "G#3", "F#3", "E3", "D3", "B2"],
    );
  });
});

describe("strings", () => {
  it("are taken away with their moves and splits, and the others keep theirs under new numbers", () => {
    const copedent = good(edited(removeString("s1")));
    expect(copedent.strings.map(({ openMidi }) => openMidi)).toEqual(
      E9.strings.slice(1).map(({ openMidi }) => openMidi),
    );
    expect(changeOf(copedent, "A").stages).toEqual([{ 4: 2, 9: 2 }]);
    expect(changeOf(copedent, "G").stages).toEqual([{ 6: 1 }]);
    expect(copedent.splits).toEqual([4, 5, 9]);
    expect(copedent.grips).toEqual([
      [2, 3, 4],
      [3, 4, 5],
      [4, 5, 7],
      [5, 7, 9],
    ]);
  });

  it("sound the same wherever they are put", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 10 }), fc.constantFrom(-1 as const, 1 as const))),
        fc.constantFrom("A", "B", "C", "DD"),
        (moves, stage) => {
          const draft = edited(...moves.map(([string, by]) => moveString(`s${string}`, by)));
          const copedent = good(draft);
          for (const { number } of E9.strings) {
            const now = draft.strings.findIndex(({ key }) => key === `s${number}`) + 1;
            expect(effectiveMidi(copedent, now, 3, [stage])).toBe(effectiveMidi(E9, number, 3, [stage]));
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it("are added nearest to the player, without moves", () => {
    const copedent = good(edited(addString("G#2")));
    expect(copedent.strings.at(-1)).toEqual({ number: 11, openMidi: 44 });
    expect(copedent.changes).toEqual(E9.changes);
  });

  it.each([
    ["F#4", 66],
    ["gb4", 66],
    ["66", 66],
    ["C-1", 0],
  ])("are tuned by %s", (typed, midi) => {
    expect(
      good(edited(setFields({ frets: "12" }), setString("s1", { pitch: typed }))).strings[0]?.openMidi,
    ).toBe(midi);
  });
});

describe("changes", () => {
  it("come with a free letter at a free place, and go with what was said of them", () => {
    const draft = edited(addChange);
    const added = draft.changes.at(-1)!;
    expect(added).toMatchObject({ id: "H", slot: "P4", stages: [{}] });
    expect(changeOf(good(draft), "H").stages).toEqual([{}]);
    const without = good(edited(removeChange("c1")));
    expect(without.changes.map(({ id }) => id)).not.toContain("A");
    expect(without.footRest).toEqual([2]);
  });

  it("keep exceptions when they are renamed or put elsewhere", () => {
    const chart = { ...CHART, combinations: [{ string: 5, stages: ["A", "V"], semitones: 0 }] };
    const draft = [setChange("c1", { id: "Q", slot: "LOCK" as const }), moveChange("c1", 1)].reduce(
      (now, edit) => edit(now),
      openDraft(chart),
    );
    const copedent = good(draft);
    expect(copedent.combinations).toEqual([{ string: 5, stages: ["Q", "V"], semitones: 0 }]);
    expect(changeOf(copedent, "Q").slot).toEqual({ kind: "lock" });
    expect(copedent.footRest).toEqual([2]);
  });

  it("give a string what the guitar is tuned to under them, once for each combination", () => {
    const held = [
      { change: "c1", depth: 1 },
      { change: "c6", depth: 1 },
    ];
    const draft = edited(
      addCombination({ string: "s5", stages: held, semitones: 0 }),
      addCombination({ string: "s5", stages: [...held].reverse(), semitones: 1 }),
      addCombination({ string: "s10", stages: held, semitones: 1 }),
    );
    const read = good(draft).combinations.map(({ string, semitones }) => [string, semitones]);
    expect(read).toEqual([
      [5, 1],
      [10, 1],
    ]);
    expect(good(removeCombination(0)(draft)).combinations).toHaveLength(1);
  });

  it("get a further stage behind a half stop, and lose it again", () => {
    const [lower] = E9.changes.filter(({ id }) => id === "E");
    const draft = edited(addStage("c5"), setMove("c5", 1, "s4", "--"));
    expect(changeOf(good(draft), "E").stages).toEqual([lower!.stages[0], { ...lower!.stages[0], 4: -2 }]);
    expect(changeOf(good(removeStage("c5")(draft)), "E")).toEqual(lower);
    expect(edited(removeStage("c1"))).toEqual(openDraft(CHART));
  });

  it.each([
    ["+", 1],
    ["++", 2],
    ["−", -1],
    ["--", -2],
    ["+3", 3],
    ["-3", -3],
    ["2", 2],
    ["", undefined],
    ["0", undefined],
  ])("move a string by %j", (typed, semitones) => {
    expect(changeOf(good(edited(setMove("c1", 0, "s7", typed))), "A").stages[0]?.[7]).toBe(semitones);
  });
});

describe("what cannot be read", () => {
  it("is told field by field, and nothing typed is lost", () => {
    const draft = edited(
      setString("s2", { pitch: "H4" }),
      setString("s3", { pitch: "G#" }),
      setMove("c1", 0, "s5", "up"),
      setFields({ name: " ", frets: "many", grips: "3 4 5; 6" }),
    );
    const { copedent, chart, faults } = readDraft(draft);
    expect([copedent, chart]).toEqual([null, null]);
    expect([...faults.keys()].sort()).toEqual(
      [
        "name",
        "frets",
        "grips",
        fieldAt.pitch("s2"),
        fieldAt.pitch("s3"),
        fieldAt.move("c1", 0, "s5"),
      ].sort(),
    );
    expect(faults.get(fieldAt.pitch("s3"))).toMatch(/octave/);
    expect(draft.strings[1]?.pitch).toBe("H4");
    const mended = [
      setString("s2", { pitch: "D#4" }),
      setString("s3", { pitch: "G#4" }),
      setMove("c1", 0, "s5", "++"),
      setFields({ name: E9.name, frets: "24", grips: "3 4 5, 4 5 6, 5 6 8, 6 8 10" }),
    ].reduce((now, edit) => edit(now), draft);
    expect(readDraft(mended, "e9").copedent).toEqual(E9);
  });

  it.each([
    ["two pedals at one place", [setChange("c2", { slot: "P1" })], fieldAt.slot("c2"), /where A is/],
    ["two changes of one letter", [setChange("c2", { id: "a" })], fieldAt.id("c2"), /another id/],
    ["a letter that is none", [setChange("c3", { id: "?" })], fieldAt.id("c3"), /no id/],
    ["a move that is too far", [setMove("c1", 0, "s5", "+13")], fieldAt.move("c1", 0, "s5"), /-12 to 12/],
    ["a second stage's move", [setMove("c7", 1, "s9", "13")], fieldAt.move("c7", 1, "s9"), /-12 to 12/],
    ["a string past MIDI", [setString("s1", { pitch: "127" })], fieldAt.pitch("s1"), /outside 0 to 127/],
    [
      "a string that begins past the neck",
      [setString("s1", { beginsAtFret: "30" })],
      fieldAt.begins("s1"),
      /0 to 24/,
    ],
    ["a grip with a string that is not there", [setFields({ grips: "3 12" })], "grips", /no string 12/],
  ] as const)("%s is told where it is mended", (_what, edits, field, words) => {
    const { copedent, faults } = readDraft(edited(...edits));
    expect(copedent).toBeNull();
    expect([...faults.keys()]).toEqual([field]);
    expect(faults.get(field)).toMatch(words);
  });

  it("a split of a string stands and falls with one click", () => {
    expect(good(edited(toggleSplit("s1"))).splits).toEqual([1, 5, 6, 10]);
    expect(good(edited(toggleSplit("s5"))).splits).toEqual([6, 10]);
  });
});
