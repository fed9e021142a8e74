import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  addPartEvent,
  addPartEvents,
  inkPartEvents,
  type PartEventFields,
  rubOutPartEvent,
} from "@/lib/document/commands/part";
import {
  copyPartEvents,
  editPartEvents,
  movePartEvents,
  rubOutPartEvents,
} from "@/lib/document/commands/partMany";
import { addPart } from "@/lib/document/commands/parts";
import { restore } from "@/lib/document/commands/restore";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import { done, meet, type Replica, registers, replica } from "./replicas";

const at = (startSec: number, fret: number): PartEventFields => ({
  ...{ startSec, endSec: startSec + 1, strings: [4, 5], fret, changes: [], articulation: "pick" },
});
const shown = (on: Replica) =>
  readSong(on.doc).part.map(({ startSec, fret, mark, madeBy }) => [startSec, fret, mark, madeBy]);

describe("several events edited in one act", () => {
  it("D50: ink stays ink and pencil pencil, and undo takes all of it back in one step", () => {
    const ann = replica("ann", 1);
    const [inked] = done(addPartEvent(ann.ctx, at(0, 3)));
    const [guess] = done(addPartEvent(ann.ctx, at(1, 5), "pencil"));
    const ids = done(
      editPartEvents(
        ann.ctx,
        new Map([
          [inked!, { startSec: 4, endSec: 5 }],
          [guess!, { startSec: 5, endSec: 6, techniques: ["block"] }],
        ]),
      ),
    );
    expect(shown(ann)).toEqual([
      [4, 3, "ink", "ann"],
      [5, 5, "pencil", "ann"],
    ]);
    expect(readSong(ann.doc).part.every(({ id }) => ids.includes(id))).toBe(true);
    expect(readRubbedOut(ann.doc, "part")).toEqual([]);
    ann.undo.undo();
    expect(shown(ann)).toEqual([
      [0, 3, "ink", "ann"],
      [1, 5, "pencil", "ann"],
    ]);
    ann.undo.redo();
    expect(shown(ann).map(([startSec]) => startSec)).toEqual([4, 5]);
  });

  it("D50: another's pencil is rubbed out and stands anew in one's own; what they inked meanwhile stays", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [guess] = done(addPartEvent(ben.ctx, at(1, 5), "pencil"));
    meet(ann, ben);
    done(editPartEvents(ann.ctx, new Map([[guess!, { fret: 7 }]])));
    done(inkPartEvents(ben.ctx, [guess!]));
    expect(shown(ann)).toEqual([[1, 7, "pencil", "ann"]]);
    meet(ann, ben);
    // Both begin together on the same strings: ink wins them (D14), and the guess that it wins over is not shown.
    for (const each of [ann, ben]) expect(shown(each)).toEqual([[1, 5, "ink", "ben"]]);
  });

  it("D50: what is as wished already is left alone", () => {
    const ann = replica("ann", 1);
    const ids = done(addPartEvents(ann.ctx, [at(0, 3), at(1, 5)], "pencil"));
    const before = registers(ann.doc);
    expect(done(editPartEvents(ann.ctx, new Map(ids.map((id) => [id, { techniques: [] }]))))).toEqual([]);
    expect(registers(ann.doc)).toEqual(before);
  });

  it.each([
    ["nonsense", { fret: 99 }, "badFret"],
    ["a time before the record", { startSec: -1, endSec: 0 }, "badTime"],
  ])("D50: %s in one of them refuses the whole", (_, wrong, reason) => {
    const ann = replica("ann", 1);
    const [first, second] = done(addPartEvents(ann.ctx, [at(0, 3), at(1, 5)], "ink"));
    const before = registers(ann.doc);
    const edits = new Map<string, Partial<PartEventFields>>([
      [first!, { fret: 8 }],
      [second!, wrong],
    ]);
    expect(editPartEvents(ann.ctx, edits)).toMatchObject({ ok: false, reason });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D50: one that someone rubbed out refuses the whole", () => {
    const ann = replica("ann", 1);
    const [first, second] = done(addPartEvents(ann.ctx, [at(0, 3), at(1, 5)], "ink"));
    done(rubOutPartEvent(ann.ctx, second!));
    const before = registers(ann.doc);
    const edits = new Map([first!, second!].map((id) => [id, { fret: 8 }]));
    expect(editPartEvents(ann.ctx, edits)).toMatchObject({ ok: false, reason: "rubbedOut" });
    expect(registers(ann.doc)).toEqual(before);
  });
});

describe("several events rubbed out or copied in one act", () => {
  it("D51: are rubbed out, put back one by one, and taken back in one step", () => {
    const ann = replica("ann", 1);
    const [first, second] = done(addPartEvents(ann.ctx, [at(0, 3), at(1, 5)], "pencil"));
    done(rubOutPartEvents(ann.ctx, [first!, second!, first!]));
    expect(shown(ann)).toEqual([]);
    done(restore(ann.ctx, "part", second!));
    expect(shown(ann)).toEqual([[1, 5, "pencil", "ann"]]);
    ann.undo.undo();
    ann.undo.undo();
    expect(shown(ann)).toHaveLength(2);
  });

  it("D51: rubbing out an event that is not there refuses the whole", () => {
    const ann = replica("ann", 1);
    const [first] = done(addPartEvents(ann.ctx, [at(0, 3)], "ink"));
    expect(rubOutPartEvents(ann.ctx, [first!, "nobody"])).toMatchObject({ reason: "unknownRecord" });
    expect(shown(ann)).toHaveLength(1);
  });

  it("D51: ink that no rubber saw brings one of them back (D9)", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [first, second] = done(addPartEvents(ann.ctx, [at(0, 3), at(1, 5)], "pencil"));
    meet(ann, ben);
    done(rubOutPartEvents(ann.ctx, [first!, second!]));
    done(inkPartEvents(ben.ctx, [second!]));
    meet(ann, ben);
    for (const each of [ann, ben]) expect(shown(each)).toEqual([[1, 5, "ink", "ann"]]);
  });

  it("D51: copies stand each in its mark, made by whoever copies, and take nothing away", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    done(addPartEvent(ann.ctx, at(4, 3)));
    meet(ann, ben);
    done(
      copyPartEvents(ben.ctx, [
        { event: at(8, 3), mark: "ink" },
        { event: { ...at(9, 5), techniques: ["vibrato"] }, mark: "pencil" },
      ]),
    );
    meet(ann, ben);
    for (const each of [ann, ben])
      expect(shown(each)).toEqual([
        [4, 3, "ink", "ann"],
        [8, 3, "ink", "ben"],
        [9, 5, "pencil", "ben"],
      ]);
    ben.undo.undo();
    expect(shown(ben)).toEqual([[4, 3, "ink", "ann"]]);
  });

  it("D17: a copy that is nonsense refuses the whole", () => {
    const ann = replica("ann", 1);
    const copies = [at(0, 3), at(1, 99)].map((event) => ({ event, mark: "ink" as const }));
    expect(copyPartEvents(ann.ctx, copies)).toMatchObject({ reason: "badFret" });
    expect(shown(ann)).toEqual([]);
  });
});

describe("events moved to another part in one act", () => {
  const lap = {
    ...{ name: "Lap steel", from: { kind: "own", id: "lap", ownerId: "ann" } as const },
    chart: { name: "Lap", strings: [64, 60, 57, 55, 52, 48] },
  };
  const partsOf = (on: Replica) =>
    readSong(on.doc).parts.map(({ events }) =>
      events.map(({ startSec, fret, mark, madeBy }) => [startSec, fret, mark, madeBy]),
    );
  /** Ann has written two events in the first part, one in pencil, and made a lap steel's part, which is empty. */
  function twoParts() {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [inked = ""] = done(addPartEvent(ann.ctx, at(0, 3)));
    const [guess = ""] = done(addPartEvent(ann.ctx, at(1, 5), "pencil"));
    const [part = ""] = done(addPart(ann.ctx, lap));
    meet(ann, ben);
    const laid = new Map([
      [inked, { ...at(0, 8), strings: [1, 2] }],
      [guess, { ...at(1, 10), strings: [1, 2] }],
    ]);
    return { ann, ben, inked, guess, part, laid };
  }

  it("D66: leave their part and stand in the other, each in its mark, and undo brings them back in one step", () => {
    const { ann, ben, part, laid } = twoParts();
    const before = registers(ann.doc);
    done(movePartEvents(ann.ctx, laid, part));
    const moved = [
      [],
      [
        [0, 8, "ink", "ann"],
        [1, 10, "pencil", "ann"],
      ],
    ];
    expect(partsOf(ann)).toEqual(moved);
    meet(ann, ben);
    expect(partsOf(ben)).toEqual(moved);
    ann.undo.undo();
    expect(partsOf(ann)).toEqual([
      [
        [0, 3, "ink", "ann"],
        [1, 5, "pencil", "ann"],
      ],
      [],
    ]);
    expect(registers(ann.doc)).toEqual(before);
    ann.undo.redo();
    expect(partsOf(ann)).toEqual(moved);
  });

  it("D66: of another's, the pencil is rubbed out and can be put back; the new ones are made by whoever moves", () => {
    const { ben, guess, part, laid } = twoParts();
    done(movePartEvents(ben.ctx, laid, part));
    expect(partsOf(ben)[1]).toEqual([
      [0, 8, "ink", "ben"],
      [1, 10, "pencil", "ben"],
    ]);
    expect(readRubbedOut(ben.doc, "part").map(({ record }) => record.id)).toContain(guess);
    done(restore(ben.ctx, "part", guess));
    expect(partsOf(ben)[0]).toEqual([[1, 5, "pencil", "ann"]]);
  });

  it("D66: what someone inked meanwhile stays where it was too", () => {
    const { ann, ben, guess, part, laid } = twoParts();
    done(movePartEvents(ben.ctx, laid, part));
    done(inkPartEvents(ann.ctx, [guess]));
    meet(ann, ben);
    for (const each of [ann, ben])
      expect(partsOf(each)).toEqual([
        [[1, 5, "ink", "ann"]],
        [
          [0, 8, "ink", "ben"],
          [1, 10, "pencil", "ben"],
        ],
      ]);
  });

  it.each([
    ["an event of that very part", "samePart"],
    ["one that someone rubbed out", "rubbedOut"],
    ["nonsense", "badFret"],
    ["a part that is gone", "unknownPart"],
  ] as const)("D66: %s refuses the whole", (what, reason) => {
    const { ann, inked, guess, part, laid } = twoParts();
    if (what.startsWith("one that")) done(rubOutPartEvent(ann.ctx, guess));
    if (what === "nonsense") laid.set(guess, at(1, 99));
    const to = what.startsWith("an event") ? "part" : what.startsWith("a part") ? "nobody" : part;
    const before = registers(ann.doc);
    expect(movePartEvents(ann.ctx, laid, to)).toMatchObject({ ok: false, reason });
    expect(registers(ann.doc)).toEqual(before);
    expect(inked).not.toBe("");
  });

  it("D66: over any events, marks and parts, none is lost and none is there twice", () => {
    const events = fc.array(fc.record({ isInk: fc.boolean(), isBens: fc.boolean(), isMoved: fc.boolean() }), {
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(events, (drawn) => {
        const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
        const [part = ""] = done(addPart(ann.ctx, lap));
        meet(ann, ben);
        const ids = drawn.map(({ isInk, isBens }, index) => {
          const [id = ""] = done(
            addPartEvent((isBens ? ben : ann).ctx, at(2 * index, index), isInk ? "ink" : "pencil"),
          );
          return id;
        });
        meet(ann, ben);
        const before = partsOf(ann);
        const laid = new Map<string, PartEventFields>();
        ids.forEach((id, index) => {
          if (drawn[index]!.isMoved) laid.set(id, { ...at(2 * index, index), strings: [1] });
        });
        fc.pre(laid.size > 0);
        done(movePartEvents(ann.ctx, laid, part));
        const marks = (isMoved: boolean) =>
          drawn.flatMap((each, index) => (each.isMoved === isMoved ? [[2 * index, each.isInk]] : []));
        const read = partsOf(ann).map((of) => of.map(([sec, , mark]) => [sec, mark === "ink"]));
        expect(read).toEqual([marks(false), marks(true)]);
        ann.undo.undo();
        expect(partsOf(ann)).toEqual(before);
      }),
      { numRuns: 40 },
    );
  });
});
