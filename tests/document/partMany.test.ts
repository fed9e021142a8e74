import { describe, expect, it } from "vitest";
import {
  addPartEvent,
  addPartEvents,
  inkPartEvents,
  type PartEventFields,
  rubOutPartEvent,
} from "@/lib/document/commands/part";
import { copyPartEvents, editPartEvents, rubOutPartEvents } from "@/lib/document/commands/partMany";
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
