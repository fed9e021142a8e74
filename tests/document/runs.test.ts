import { describe, expect, it } from "vitest";
import { addBassNote } from "@/lib/document/commands/bass";
import { addChange, rubOutChange } from "@/lib/document/commands/changes";
import { copyStretches, writeChanges } from "@/lib/document/commands/runs";
import { setSectionMove } from "@/lib/document/commands/sections";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import { done, hear, type Replica, registers, replica } from "./replicas";

const changes = (on: Replica) =>
  readSong(on.doc).changes.map(({ startSec, endSec, label, mark }) => [startSec, endSec, label, mark]);
const bass = (on: Replica) =>
  readSong(on.doc).bass.map(({ startSec, endSec, midi, mark }) => [startSec, endSec, midi, mark]);

function heard(): Replica {
  const on = replica("ann", 1);
  hear(on);
  return on;
}

describe("a run of changes", () => {
  const run = [
    { startSec: 2, endSec: 4, label: "A:min" },
    { startSec: 4, endSec: 6, label: "D:7" },
  ];

  it("D57: stands in ink over pencil, in one act that undo takes back", () => {
    const ann = heard();
    const before = changes(ann);
    expect(done(writeChanges(ann.ctx, run))).toHaveLength(2);
    expect(changes(ann)).toEqual([
      [0, 2, "G:maj", "pencil"],
      [2, 4, "A:min", "ink"],
      [4, 6, "D:7", "ink"],
      [6, 8, "G:maj", "pencil"],
    ]);
    ann.undo.undo();
    expect(changes(ann)).toEqual(before);
    expect(ann.undo.canUndo()).toBe(false);
  });

  it("D57: takes the place of ink, cuts what goes on beyond, and leaves what lies beneath", () => {
    const ann = heard();
    done(addChange(ann.ctx, { startSec: 0, endSec: 8, label: "C:maj" }));
    done(addChange(ann.ctx, { startSec: 2.5, endSec: 3, label: "E:min" }));
    done(addChange(ann.ctx, { startSec: 5, endSec: 7, label: "F:maj" }));
    done(writeChanges(ann.ctx, run));
    expect(changes(ann)).toEqual([
      [0, 2, "C:maj", "ink"],
      [2, 4, "A:min", "ink"],
      [4, 6, "D:7", "ink"],
      [6, 7, "F:maj", "ink"],
      [7, 8, "C:maj", "ink"],
    ]);
    expect(readRubbedOut(ann.doc, "change").map(({ record }) => record.label)).toEqual(["E:min"]);
    ann.undo.undo();
    expect(changes(ann).map(([, , label]) => label)).toEqual(["C:maj", "E:min", "C:maj", "F:maj", "C:maj"]);
  });

  it("D57: leaves all in a gap as it is", () => {
    const ann = heard();
    done(addChange(ann.ctx, { startSec: 2.5, endSec: 3.5, label: "E:min" }));
    done(
      writeChanges(ann.ctx, [
        { startSec: 0, endSec: 2, label: "A:min" },
        { startSec: 4, endSec: 6, label: "D:7" },
      ]),
    );
    expect(changes(ann).map(([startSec, , label]) => [startSec, label])).toEqual([
      [0, "A:min"],
      [2, "C:maj"],
      [2.5, "E:min"],
      [3.5, "C:maj"],
      [4, "D:7"],
      [6, "G:maj"],
    ]);
  });

  it("D17: is refused whole where it is none", () => {
    const ann = heard();
    const before = registers(ann.doc);
    expect(writeChanges(ann.ctx, [])).toMatchObject({ reason: "badRun" });
    expect(writeChanges(ann.ctx, [...run].reverse())).toMatchObject({ reason: "badRun" });
    expect(writeChanges(ann.ctx, [run[0]!, { ...run[1]!, label: "H" }])).toMatchObject({
      reason: "badLabel",
    });
    expect(writeChanges(ann.ctx, [{ ...run[0]!, endSec: 2 }])).toMatchObject({ reason: "tooShort" });
    expect(registers(ann.doc)).toEqual(before);
  });
});

describe("copies of a section that repeats", () => {
  const into = { startSec: 4, endSec: 8 };
  const copies = (mark: "ink" | "pencil") => ({
    changes: [
      { startSec: 4, endSec: 6, label: "A:maj", mark },
      { startSec: 6, endSec: 8, label: "D:maj", mark },
    ],
    bass: [{ startSec: 4, endSec: 5.5, midi: 45, mark }],
  });

  it("D57: come in the mark of what they were copied from, in place of the pencil, in one act", () => {
    const ann = heard();
    const before = [changes(ann), bass(ann)];
    done(copyStretches(ann.ctx, into, copies("pencil")));
    expect(changes(ann).slice(2)).toEqual([
      [4, 6, "A:maj", "pencil"],
      [6, 8, "D:maj", "pencil"],
    ]);
    expect(bass(ann).slice(2)).toEqual([[4, 5.5, 45, "pencil"]]);
    ann.undo.undo();
    expect([changes(ann), bass(ann)]).toEqual(before);
    done(copyStretches(ann.ctx, into, copies("ink")));
    expect(changes(ann).slice(2)).toEqual([
      [4, 6, "A:maj", "ink"],
      [6, 8, "D:maj", "ink"],
    ]);
  });

  it("D57: are written around ink, which stays", () => {
    const ann = heard();
    done(addChange(ann.ctx, { startSec: 5, endSec: 6.5, label: "E:7" }));
    done(addBassNote(ann.ctx, { startSec: 4, endSec: 8, midi: 40 }));
    done(copyStretches(ann.ctx, into, copies("ink")));
    expect(changes(ann).slice(2)).toEqual([
      [4, 5, "A:maj", "ink"],
      [5, 6.5, "E:7", "ink"],
      [6.5, 8, "D:maj", "ink"],
    ]);
    expect(bass(ann).slice(2)).toEqual([[4, 8, 40, "ink"]]);
  });

  it("D57: are written around as much ink as a whole song holds", () => {
    const ann = heard();
    const inked = Array.from({ length: 60 }, (_, at) => ({
      ...{ startSec: 10 + 2 * at, endSec: 11 + 2 * at },
      label: at % 2 === 0 ? "E:7" : "B:7",
    }));
    for (const each of inked) done(addChange(ann.ctx, each));
    const whole = { startSec: 10, endSec: 130 };
    done(copyStretches(ann.ctx, whole, { changes: [{ ...whole, label: "A:maj", mark: "ink" }], bass: [] }));
    expect(changes(ann).slice(-120)).toEqual(
      inked.flatMap(({ startSec, endSec, label }) => [
        [startSec, endSec, label, "ink"],
        [endSec, endSec + 1, "A:maj", "ink"],
      ]),
    );
  });

  it("D57: a hearing that comes after brings back no pencil that they took the place of", () => {
    const ann = heard();
    done(copyStretches(ann.ctx, into, copies("pencil")));
    hear(ann, undefined, "run 2");
    expect(
      changes(ann)
        .slice(2)
        .map(([, , label]) => label),
    ).toEqual(["A:maj", "D:maj"]);
  });
});

describe("how far a section is moved", () => {
  it("D22: is said by a person, in ink, and taken back", () => {
    const ann = heard();
    const { id } = readSong(ann.doc).sections[1]!;
    done(setSectionMove(ann.ctx, id, -3));
    expect(readSong(ann.doc).sections[1]).toMatchObject({ transposedSemitones: -3, mark: "ink" });
    ann.undo.undo();
    expect(readSong(ann.doc).sections[1]).toMatchObject({ transposedSemitones: 2, mark: "pencil" });
    expect(setSectionMove(ann.ctx, id, 7)).toMatchObject({ reason: "badMove" });
    expect(rubOutChange(ann.ctx, "nobody")).toMatchObject({ ok: false });
  });
});
