import { describe, expect, it } from "vitest";
import {
  addPartEvents,
  inkPartEvents,
  type PartEventFields,
  rubOutPartEvent,
} from "@/lib/document/commands/part";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import { done, meet, type Replica, registers, replica } from "./replicas";

const at = (startSec: number, fret: number): PartEventFields => ({
  startSec,
  endSec: startSec + 1,
  strings: [4, 5],
  fret,
  changes: [],
  articulation: "pick",
});
const shown = (on: Replica) =>
  readSong(on.doc).part.map(({ startSec, fret, mark }) => [startSec, fret, mark]);

describe("a passage written into the part", () => {
  it("D33: stands in pencil and is taken back in one step", () => {
    const ann = replica("ann", 1);
    const ids = done(addPartEvents(ann.ctx, [at(0, 3), at(1, 5)], "pencil"));
    expect(shown(ann)).toEqual([
      [0, 3, "pencil"],
      [1, 5, "pencil"],
    ]);
    done(inkPartEvents(ann.ctx, ids));
    expect(shown(ann).map((each) => each[2])).toEqual(["ink", "ink"]);
    ann.undo.undo();
    ann.undo.undo();
    expect(shown(ann)).toEqual([]);
  });

  it("D33: laid out another way it takes the place of one's own pencil, of which nothing is left to put back", () => {
    const ann = replica("ann", 1);
    const first = done(addPartEvents(ann.ctx, [at(0, 3), at(1, 5)], "pencil"));
    done(addPartEvents(ann.ctx, [at(0, 8)], "pencil", first));
    expect(shown(ann)).toEqual([[0, 8, "pencil"]]);
    expect(readRubbedOut(ann.doc, "part")).toEqual([]);
    ann.undo.undo();
    expect(shown(ann).map(([, fret]) => fret)).toEqual([3, 5]);
    ann.undo.redo();
    expect(shown(ann)).toEqual([[0, 8, "pencil"]]);
  });

  it("D33: ink, others' pencil and what was rubbed out stay", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [mine, inked, rubbed] = done(addPartEvents(ann.ctx, [at(0, 1), at(2, 2), at(4, 3)], "pencil"));
    const [others] = done(addPartEvents(ben.ctx, [at(6, 4)], "pencil"));
    meet(ann, ben);
    done(inkPartEvents(ben.ctx, [inked!]));
    done(rubOutPartEvent(ben.ctx, rubbed!));
    meet(ann, ben);
    done(addPartEvents(ann.ctx, [at(8, 5)], "pencil", [mine!, inked!, rubbed!, others!, "nobody"]));
    expect(shown(ann)).toEqual([
      [2, 2, "ink"],
      [6, 4, "pencil"],
      [8, 5, "pencil"],
    ]);
    expect(readRubbedOut(ann.doc, "part")).toMatchObject([{ record: { id: rubbed } }]);
  });

  it("D33: ink that another copy put on it meanwhile holds what that person saw", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [id] = done(addPartEvents(ann.ctx, [at(0, 3)], "pencil"));
    meet(ann, ben);
    done(inkPartEvents(ben.ctx, [id!]));
    done(addPartEvents(ann.ctx, [at(1, 8)], "pencil", [id!]));
    meet(ann, ben);
    for (const each of [ann, ben]) expect(shown(each)).toContainEqual([0, 3, "ink"]);
  });

  it("D17: is refused whole where one of its events is nonsense", () => {
    const ann = replica("ann", 1);
    const [id] = done(addPartEvents(ann.ctx, [at(0, 3)], "pencil"));
    const before = registers(ann.doc);
    expect(addPartEvents(ann.ctx, [at(1, 3), at(2, 99)], "pencil", [id!])).toMatchObject({
      reason: "badFret",
    });
    expect(registers(ann.doc)).toEqual(before);
  });
});
