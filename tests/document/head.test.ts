import { describe, expect, it, vi } from "vitest";
import { setPartCopedent } from "@/lib/document/commands/head";
import { addPartEvent, inkPartEvents, type PartEventFields } from "@/lib/document/commands/part";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import { watchSong } from "@/lib/document/read/watchSong";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { E9 } from "@/lib/instrument/copedents/e9";
import { done, meet, type Replica, registers, replica } from "./replicas";

const LAP: Chart = { name: "Ann's lap steel", strings: [64, 60, 57, 55, 52, 48], frets: 30 };
const FROM = { kind: "own", id: "lap", ownerId: "ann" } as const;
const OTHER: Chart = {
  name: "Ben's",
  strings: [64, 59],
  changes: [{ id: "Q", slot: "P1", moves: { "2": 2 } }],
};

const event = (changed: Partial<PartEventFields> = {}): PartEventFields => ({
  startSec: 1,
  endSec: 2,
  strings: [5, 6],
  fret: 3,
  changes: ["A"],
  articulation: "pick",
  ...changed,
});
const headOf = (on: Replica) => readSong(on.doc).head;

describe("the head of the part", () => {
  it("D38: without one the part is played on the preset E9", () => {
    expect(headOf(replica("ann", 1))).toEqual({
      copedent: E9,
      from: { kind: "preset", id: "e9" },
      chosenBy: null,
      chosenAtMs: null,
    });
  });

  it("D38: the chosen copedent comes whole, with its name, and who chose it when", () => {
    const ann = replica("ann", 1);
    done(setPartCopedent(ann.ctx, { from: FROM, chart: LAP }));
    const { copedent, from, chosenBy, chosenAtMs } = headOf(ann);
    expect(copedent).toMatchObject({ id: "lap", name: "Ann's lap steel", fretCount: 30, changes: [] });
    expect(copedent.strings.map(({ openMidi }) => openMidi)).toEqual([64, 60, 57, 55, 52, 48]);
    expect([from, chosenBy]).toEqual([FROM, "ann"]);
    expect(chosenAtMs).toBeGreaterThan(1_700_000_000_000);
  });

  it("D38: what is done to the chart afterwards does not reach the copy in the part", () => {
    const ann = replica("ann", 1);
    const chart: Chart = { ...LAP, strings: [...LAP.strings] };
    done(setPartCopedent(ann.ctx, { from: FROM, chart }));
    chart.strings[0] = 40;
    expect(headOf(ann).copedent.strings[0]?.openMidi).toBe(64);
  });

  it("D38: of two that are chosen at once one holds, whole, the same on every copy", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    done(setPartCopedent(ann.ctx, { from: FROM, chart: LAP }));
    done(setPartCopedent(ben.ctx, { from: { ...FROM, id: "bens", ownerId: "ben" }, chart: OTHER }));
    meet(ann, ben);
    expect(headOf(ann)).toEqual(headOf(ben));
    const { copedent, chosenBy } = headOf(ann);
    expect(copedent.strings.length).toBe(chosenBy === "ann" ? 6 : 2);
    expect(copedent.changes.length).toBe(chosenBy === "ann" ? 0 : 1);
  });

  it("D38: undo brings back the one before, and none; D15: but not over another person's choice", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    done(setPartCopedent(ann.ctx, { from: FROM, chart: LAP }));
    done(setPartCopedent(ann.ctx, { from: FROM, chart: OTHER }));
    ann.undo.undo();
    expect(headOf(ann).copedent.name).toBe("Ann's lap steel");
    ann.undo.redo();
    expect(headOf(ann).copedent.name).toBe("Ben's");
    ann.undo.undo();
    ann.undo.undo();
    expect(headOf(ann).copedent.id).toBe("e9");

    done(setPartCopedent(ann.ctx, { from: FROM, chart: LAP }));
    meet(ann, ben);
    done(setPartCopedent(ben.ctx, { from: FROM, chart: OTHER }));
    meet(ann, ben);
    ann.undo.undo();
    expect(headOf(ann).copedent.name).toBe("Ben's");
  });

  it.each([
    ["no strings", { strings: [] }],
    [
      "a move on a string that is not there",
      { strings: [64], changes: [{ id: "A", slot: "P1", moves: { "3": 1 } }] },
    ],
    ["no chart at all", null],
  ])("D17: a chart with %s is refused, and nothing is written", (_, chart) => {
    const ann = replica("ann", 1);
    const before = registers(ann.doc);
    const result = setPartCopedent(ann.ctx, { from: FROM, chart: chart as unknown as Chart });
    expect(result).toMatchObject({ ok: false, reason: "badCopedent" });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D5: a head that cannot be read is passed over, and stays", () => {
    const ann = replica("ann", 1);
    for (const value of [
      null,
      7,
      { by: "ann", atMs: 1, from: FROM, chart: { strings: "six" } },
      { chart: LAP },
    ]) {
      ann.doc.getMap("head").set("part.copedent", value);
      expect(headOf(ann).copedent).toBe(E9);
      expect(ann.doc.getMap("head").get("part.copedent")).toEqual(value);
    }
  });

  it("D19: watching tells of it, and leaves all else the very same", () => {
    const ann = replica("ann", 1);
    done(addPartEvent(ann.ctx, event()));
    const seen: SongSnapshot[] = [];
    const onChange = vi.fn((song: SongSnapshot) => seen.push(song));
    watchSong(ann.doc, onChange);
    done(setPartCopedent(ann.ctx, { from: FROM, chart: LAP }));
    expect(onChange).toHaveBeenCalledTimes(2);
    expect(seen[1]!.part).toBe(seen[0]!.part);
    done(addPartEvent(ann.ctx, event({ startSec: 4, endSec: 5 })));
    expect(seen[2]!.head).toBe(seen[1]!.head);
  });
});

describe("carrying a part over to another copedent", () => {
  const place = { strings: [2], fret: 5, frets: null, changes: [] };

  it("D39: is one act with the choice, leaves the rest as written, and goes back as one step", () => {
    const ann = replica("ann", 1);
    const [carried] = done(addPartEvent(ann.ctx, event({ articulation: "press" })));
    const [left] = done(addPartEvent(ann.ctx, event({ startSec: 3, endSec: 4 })));
    const before = readSong(ann.doc).part;
    done(
      setPartCopedent(
        ann.ctx,
        { from: FROM, chart: LAP },
        new Map([[carried!, { ...place, articulation: "pick" as const }]]),
      ),
    );
    expect(readSong(ann.doc).part).toMatchObject([
      {
        id: carried,
        articulation: "pick",
        strings: [2],
        fret: 5,
        changes: [],
        mark: "ink",
        startSec: 1,
        endSec: 2,
      },
      { id: left, strings: [5, 6], fret: 3, changes: ["A"], mark: "ink" },
    ]);
    ann.undo.undo();
    expect(headOf(ann).copedent).toBe(E9);
    expect(readSong(ann.doc).part).toMatchObject(
      before.map(({ strings, fret, changes }) => ({ strings, fret, changes })),
    );
  });

  it("D39: pencil stays pencil: one's own is replaced, another's rubbed out and laid anew in one's own", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [annsGuess] = done(addPartEvent(ann.ctx, event(), "pencil"));
    const [bensGuess] = done(addPartEvent(ben.ctx, event({ startSec: 3, endSec: 4 }), "pencil"));
    meet(ann, ben);
    const laid = new Map([annsGuess!, bensGuess!].map((id) => [id, place]));
    done(setPartCopedent(ann.ctx, { from: FROM, chart: LAP }, laid));
    meet(ann, ben);
    expect(readSong(ben.doc).part).toMatchObject([
      { startSec: 1, strings: [2], mark: "pencil", madeBy: "ann" },
      { startSec: 3, strings: [2], mark: "pencil", madeBy: "ann" },
    ]);
    expect(readRubbedOut(ben.doc, "part").map(({ record }) => record.id)).toEqual([bensGuess]);
    ann.undo.undo();
    expect(readSong(ann.doc).part.map(({ id, strings }) => [id, strings])).toEqual([
      [annsGuess, [5, 6]],
      [bensGuess, [5, 6]],
    ]);
  });

  it("D39: ink that another sets on the guess meanwhile stays", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [guess] = done(addPartEvent(ben.ctx, event(), "pencil"));
    meet(ann, ben);
    done(inkPartEvents(ben.ctx, [guess!]));
    done(setPartCopedent(ann.ctx, { from: FROM, chart: LAP }, new Map([[guess!, place]])));
    meet(ann, ben);
    expect(readSong(ann.doc).part).toMatchObject([
      { mark: "pencil", strings: [2] },
      { id: guess, mark: "ink", strings: [5, 6] },
    ]);
  });

  it("D17: is refused as a whole where one event is not there", () => {
    const ann = replica("ann", 1);
    const [id] = done(addPartEvent(ann.ctx, event()));
    const before = registers(ann.doc);
    const laid = new Map([id!, "nobody"].map((each) => [each, place]));
    expect(setPartCopedent(ann.ctx, { from: FROM, chart: LAP }, laid)).toMatchObject({
      reason: "unknownRecord",
    });
    expect(registers(ann.doc)).toEqual(before);
  });
});
