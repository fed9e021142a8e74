import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { ChartFault } from "@/lib/instrument/chart/ChartFault";
import { readChart } from "@/lib/instrument/chart/readChart";
import { SLOTS, slotToCode } from "@/lib/instrument/chart/slotCode";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { COPEDENTS } from "@/lib/instrument/copedentCatalog";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { anyChart, anyCopedent } from "./anyCopedent";

const SOUND: Chart = {
  strings: [66, 63, 68, 64, 59],
  frets: 24,
  changes: [
    { id: "A", slot: "P1", moves: { "5": 2 } },
    { id: "B", slot: "P2", moves: { "3": 1 } },
    { id: "D", slot: "RKR", stages: [{ "2": -1 }, { "2": -2 }] },
  ],
};
const change = (more: object) => ({ ...SOUND, changes: [{ id: "A", slot: "P1", moves: {}, ...more }] });

describe("a chart", () => {
  it("needs strings alone", () => {
    expect(readChart({ strings: [64, 59] })).toMatchObject({
      id: "own",
      name: "Own chart, 2 strings",
      stoppedBy: "bar",
      fretCount: 24,
      strings: [
        { number: 1, openMidi: 64 },
        { number: 2, openMidi: 59 },
      ],
      changes: [],
      splits: [],
      combinations: [],
      footRest: [],
      grips: [],
    });
  });

  it("says what its pedals and levers do", () => {
    const copedent = readChart({ ...SOUND, split: [2], footRest: [2, 1], grips: [[5, 3, 4]] }, "mine");
    expect(copedent.id).toBe("mine");
    expect(copedent.changes.map(({ slot }) => slot)).toEqual([SLOTS.P1, SLOTS.P2, SLOTS.RKR]);
    expect(effectiveMidi(copedent, 2, 3, ["DD"])).toBe(64);
    expect(copedent).toMatchObject({ splits: [2], footRest: [1, 2], grips: [[3, 4, 5]] });
  });

  it("takes half stops beside the whole travel, which is not counted twice", () => {
    const stagesOf = (more: object) =>
      readChart({ ...SOUND, changes: [{ id: "D", slot: "RKR", ...more }] }).changes[0]?.stages;
    const stages = [{ 2: -1 }, { 2: -2, 4: 1 }];
    expect(stagesOf({ moves: { "2": -2, "4": 1 }, stages: [{ "2": -1 }] })).toEqual(stages);
    expect(stagesOf({ moves: { "4": 1, "2": -2 }, stages: [{ "2": -1 }, { "2": -2, "4": 1 }] })).toEqual(
      stages,
    );
  });

  it("gives a short string its first fret, and what a combination is tuned to", () => {
    const copedent = readChart({
      strings: [62, { midi: 67, beginsAtFret: 5 }],
      changes: [
        { id: "A", slot: "P1", moves: { "1": 2 } },
        { id: "L", slot: "LOCK", moves: { "1": -1 } },
      ],
      combinations: [{ string: 1, stages: ["L", "A"], semitones: 2 }],
    });
    expect(effectiveMidi(copedent, 2, 7, [])).toBe(69);
    expect(effectiveMidi(copedent, 1, 0, ["A", "L"])).toBe(64);
  });

  it("lets several strings be pulled by hand", () => {
    const hands = [
      { id: "H1", slot: "HAND", moves: { "1": 1 } },
      { id: "H2", slot: "HAND", moves: { "2": 1 } },
    ];
    expect(readChart({ ...SOUND, changes: hands }).changes).toHaveLength(2);
  });

  it.each(Object.entries(SLOTS))("names the slot %s both ways", (code, slot) => {
    expect(slotToCode(slot)).toBe(code);
  });
});

describe("writing a chart and reading it back", () => {
  it("gives the same copedent", () => {
    fc.assert(
      fc.property(anyCopedent, (copedent) => {
        const json = JSON.parse(JSON.stringify(writeChart(copedent)));
        expect(readChart(json, copedent.id)).toEqual(copedent);
      }),
    );
  });

  it("gives the same chart, once it was written", () => {
    fc.assert(
      fc.property(anyChart, (chart) => {
        const written = writeChart(readChart(chart));
        expect(writeChart(readChart(written))).toEqual(written);
      }),
    );
  });

  it.each(COPEDENTS)("keeps all of $id", (copedent) => {
    expect(readChart(JSON.parse(JSON.stringify(writeChart(copedent))), copedent.id)).toEqual(copedent);
  });
});

describe("a chart that is no instrument", () => {
  it.each<[string, unknown, string]>([
    ["no object", [1], "the chart: must be an object with name, source"],
    ["nothing", null, "the chart: must be an object"],
    ["a field that is not known", { ...SOUND, splits: [1] }, 'the chart: "splits" is not a field here'],
    ["no strings", { ...SOUND, strings: [] }, "strings: there are none"],
    ["strings that are no list", { ...SOUND, strings: "E9" }, 'strings: must be a list of strings, not "E9"'],
    ["too many strings", { strings: Array(17).fill(50) }, "strings: lists 17 strings: write at most 16"],
    ["half a pitch", { strings: [60.5] }, "strings[0]: must be a whole number from 0 to 127, not 60.5"],
    ["a pitch off MIDI", { strings: [-1] }, "strings[0]: must be a whole number from 0 to 127, not -1"],
    [
      "a fret that takes a string off MIDI",
      { strings: [110], frets: 24 },
      "strings[0]: string 1 would sound MIDI 134 at fret 24",
    ],
    [
      "a lever that takes a string off MIDI",
      { strings: [1], changes: [{ id: "A", slot: "P1", moves: { "1": -3 } }] },
      "strings[0]: string 1 would sound MIDI -2 when lowered",
    ],
    [
      "a string that begins past the frets",
      { strings: [{ midi: 60, beginsAtFret: 30 }] },
      "strings[0].beginsAtFret: must be a whole number from 0 to 24",
    ],
    ["too many frets", { ...SOUND, frets: 37 }, "frets: must be a whole number from 1 to 36, not 37"],
    ["no frets", { ...SOUND, frets: 0 }, "frets: must be a whole number from 1 to 36, not 0"],
    [
      "another way of stopping",
      { ...SOUND, stoppedBy: "breath" },
      'stoppedBy: must be "bar" or "fingers", not "breath"',
    ],
    ["a name of two lines", { ...SOUND, name: "one\ntwo" }, "name: must be one line of plain text"],
    ["a name too long", { ...SOUND, name: "x".repeat(81) }, "name: is 81 characters long: write at most 80"],
    [
      "a change that is no object",
      { ...SOUND, changes: [7] },
      "changes[0]: must be an object with id, label",
    ],
    ["an id that is none", change({ id: "4th" }), 'changes[0].id: "4th" is no id: write a letter'],
    ["an id too long", change({ id: "a".repeat(17) }), "changes[0].id:"],
    [
      "an id too long when written twice",
      change({ id: "ninechars", moves: undefined, stages: [{}, {}] }),
      "changes[0].id: stage 2 of ninechars, ninecharsninechars, is longer than 16 characters",
    ],
    [
      "a slot that is none",
      change({ slot: "P10" }),
      'changes[0].slot: "P10" is no place for A: write one of P0, P1',
    ],
    [
      "a slot by an object's own word",
      change({ slot: "toString" }),
      'changes[0].slot: "toString" is no place',
    ],
    [
      "a string that does not exist",
      change({ moves: { "11": 2 } }),
      'changes[0].moves: there is no string "11": the strings are 1 to 5',
    ],
    [
      "a string that is no number",
      change({ moves: JSON.parse('{"__proto__": 2}') }),
      'changes[0].moves: there is no string "__proto__"',
    ],
    [
      "a move too far",
      change({ moves: { "5": 13 } }),
      "changes[0].moves.5: must be a whole number from -12 to 12, not 13",
    ],
    [
      "a move that is no number",
      change({ moves: { "5": "+2" } }),
      'changes[0].moves.5: must be a whole number from -12 to 12, not "+2"',
    ],
    ["moves in a list", change({ moves: [2] }), "changes[0].moves: must give semitones by string"],
    [
      "neither moves nor stages",
      { strings: [60], changes: [{ id: "A", slot: "P1" }] },
      "changes[0]: A does nothing yet: write moves",
    ],
    [
      "more stages with the moves than there may be",
      change({ stages: [{}, { "5": 3 }, {}, { "5": 4 }] }),
      "changes[0].stages: A has 5 stages with its moves",
    ],
    ["no stage", change({ moves: undefined, stages: [] }), "changes[0].stages: A needs at least one stage"],
    [
      "too many stages",
      change({ moves: undefined, stages: [{}, {}, {}, {}, {}] }),
      "changes[0].stages: lists 5 stages",
    ],
    ["a string split that does not exist", { ...SOUND, split: [6] }, "split[0]: there is no string 6"],
    ["a string split twice", { ...SOUND, split: [2, 2] }, "split: lists string 2 twice"],
    ["a rest where no pedal is", { ...SOUND, footRest: [4] }, "footRest[0]: no pedal stands at 4"],
    ["a grip of one string", { ...SOUND, grips: [[3]] }, "grips[0]: must hold two strings or more"],
    [
      "a combination of what is not there",
      { ...SOUND, combinations: [{ string: 1, stages: ["Q"], semitones: 1 }] },
      'combinations[0].stages[0]: there is no pedal or lever "Q": it must be one of A, B, D, DD',
    ],
    [
      "a combination of two stages of one lever",
      { ...SOUND, combinations: [{ string: 1, stages: ["D", "DD"], semitones: 1 }] },
      "combinations[0].stages: must name one or more pedals and levers, each once",
    ],
    [
      "one combination twice",
      {
        ...SOUND,
        combinations: [
          { string: 1, stages: ["A", "B"], semitones: 1 },
          { string: 1, stages: ["B", "A"], semitones: 2 },
        ],
      },
      "combinations[1]: string 1 has that combination already",
    ],
  ])("is refused for %s", (_, chart, message) => {
    expect(() => readChart(chart)).toThrow(ChartFault);
    expect(() => readChart(chart)).toThrow(message);
  });

  const both = (one: object, other: object) => ({ strings: [60, 64], changes: [one, other] });
  const pull = (id: string, slot: string, more: object = { moves: {} }) => ({ id, slot, ...more });
  it.each<[string, unknown, string]>([
    [
      "two in one place",
      both(pull("A", "P1"), pull("B", "P1")),
      "changes[1].slot: B stands at P1, where A is already",
    ],
    [
      "two locks",
      both(pull("A", "LOCK"), pull("B", "LOCK")),
      "changes[1].slot: B stands at LOCK, where A is already",
    ],
    ["one id twice", both(pull("A", "P1"), pull("A", "P2")), "changes[1].id: A is written like the change A"],
    [
      "ids that differ in case",
      both(pull("A", "P1"), pull("a", "P2")),
      "changes[1].id: a is written like the change A",
    ],
    [
      "an id like the other's second stage",
      both(pull("D", "P1", { stages: [{}, {}] }), pull("DD", "P2")),
      "changes[1].id: DD is written like stage 2 of D, DD",
    ],
    [
      "a second stage like the other's id",
      both(pull("DD", "P2"), pull("D", "P1", { stages: [{}, {}] })),
      "changes[1].id: stage 2 of D, DD, is written like the change DD",
    ],
  ])("is refused for %s", (_, chart, message) => {
    expect(() => readChart(chart)).toThrow(message);
  });

  it("is refused where it would take too long to search", () => {
    const pedals = Array.from({ length: 10 }, (_, place) => `P${place}`);
    const knees = ["LKL", "LKR", "LKV", "RKL", "RKR", "RKV"];
    const changes = [...pedals, ...knees].map((slot) => ({ id: slot, slot, stages: [{}, {}, {}, {}] }));
    expect(() => readChart({ strings: [60], changes })).toThrow("in more than 4096 ways");
  });

  it("is told in one line that quotes little of it, whatever it holds", () => {
    fc.assert(
      fc.property(
        fc.anything(),
        fc.constantFrom("strings", "changes", "frets", "grips", "name"),
        (value, field) => {
          for (const chart of [value, { ...SOUND, [field]: value }, { ...SOUND, [field]: [value] }]) {
            try {
              readChart(chart);
            } catch (fault) {
              expect(fault).toBeInstanceOf(ChartFault);
              expect((fault as ChartFault).message).not.toMatch(/[\n\r]/);
              expect((fault as ChartFault).message.length).toBeLessThan(400);
            }
          }
        },
      ),
    );
  });
});
