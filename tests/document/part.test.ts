import { describe, expect, it } from "vitest";
import {
  addPartEvent,
  editPartEvent,
  inkPartEvents,
  type PartEventFields,
  rubOutPartEvent,
} from "@/lib/document/commands/part";
import { restore } from "@/lib/document/commands/restore";
import { readSong } from "@/lib/document/read/readSong";
import { done, meet, type Replica, registers, replica } from "./replicas";

const event = (changed: Partial<PartEventFields> = {}): PartEventFields => ({
  startSec: 1,
  endSec: 2,
  strings: [5, 6],
  fret: 3,
  changes: [],
  articulation: "pick",
  ...changed,
});
const shown = (on: Replica) =>
  readSong(on.doc).part.map(({ startSec, endSec, strings, mark }) => [startSec, endSec, strings, mark]);

describe("part events", () => {
  it("D6: adds in ink, or in pencil where it is a guess that is inked later", () => {
    const ann = replica("ann", 1);
    done(addPartEvent(ann.ctx, event()));
    const [guess] = done(addPartEvent(ann.ctx, event({ startSec: 2, endSec: 3 }), "pencil"));
    expect(shown(ann).map((each) => each[3])).toEqual(["ink", "pencil"]);
    done(inkPartEvents(ann.ctx, [guess!]));
    expect(shown(ann).map((each) => each[3])).toEqual(["ink", "ink"]);
  });

  it("D6: editing inks a guess", () => {
    const ann = replica("ann", 1);
    const [guess] = done(addPartEvent(ann.ctx, event(), "pencil"));
    done(editPartEvent(ann.ctx, guess!, { fret: 8, changes: ["A", "B"] }));
    expect(readSong(ann.doc).part[0]).toMatchObject({
      fret: 8,
      changes: ["A", "B"],
      strings: [5, 6],
      mark: "ink",
    });
  });

  it("D3: one person's fret and another's pedals both stand", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [id] = done(addPartEvent(ann.ctx, event()));
    meet(ann, ben);
    done(editPartEvent(ann.ctx, id!, { fret: 8 }));
    done(editPartEvent(ben.ctx, id!, { changes: ["A"], articulation: "press" }));
    meet(ann, ben);
    for (const each of [ann, ben]) {
      expect(readSong(each.doc).part).toMatchObject([{ fret: 8, changes: ["A"], articulation: "press" }]);
    }
  });

  it("D4: ends moved past each other at once are read turned round, and the next edit puts them in order", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [id] = done(addPartEvent(ann.ctx, event({ startSec: 2, endSec: 6 })));
    meet(ann, ben);
    done(editPartEvent(ann.ctx, id!, { startSec: 5 }));
    done(editPartEvent(ben.ctx, id!, { endSec: 3 }));
    meet(ann, ben);
    for (const each of [ann, ben]) expect(shown(each)).toEqual([[3, 5, [5, 6], "ink"]]);
    done(editPartEvent(ann.ctx, id!, { fret: 5, endSec: 7 }));
    expect(shown(ann)).toEqual([[3, 7, [5, 6], "ink"]]);
  });

  it("D51: a string joins another event in one act, which one undo takes back", () => {
    const ann = replica("ann", 1);
    const [joined] = done(addPartEvent(ann.ctx, event({ strings: [5] })));
    const [own] = done(addPartEvent(ann.ctx, event({ strings: [6] })));
    const before = readSong(ann.doc).part;
    done(editPartEvent(ann.ctx, joined!, { strings: [5, 6] }, [own!]));
    expect(shown(ann)).toEqual([[1, 2, [5, 6], "ink"]]);
    expect(ann.undo.undo()).toBe(true);
    expect(readSong(ann.doc).part).toEqual(before);
    expect(editPartEvent(ann.ctx, joined!, { strings: [5, 6] }, ["nobody"]).ok).toBe(false);
    expect(readSong(ann.doc).part).toEqual(before);
  });

  it("D9: rubs out; D10: puts back with its mark", () => {
    const ann = replica("ann", 1);
    const [id] = done(addPartEvent(ann.ctx, event()));
    done(rubOutPartEvent(ann.ctx, id!));
    expect(shown(ann)).toEqual([]);
    done(restore(ann.ctx, "part", id!));
    expect(shown(ann)).toEqual([[1, 2, [5, 6], "ink"]]);
  });

  it.each([
    [{ startSec: Number.NaN }, "badTime"],
    [{ endSec: 0.5 }, "tooShort"],
    [{ strings: [] }, "badStrings"],
    [{ strings: [5, 5] }, "badStrings"],
    [{ strings: [0] }, "badStrings"],
    [{ strings: [17] }, "badStrings"],
    [{ strings: [1.5] }, "badStrings"],
    [{ fret: -1 }, "badFret"],
    [{ fret: Number.NaN }, "badFret"],
    [{ fret: 37 }, "badFret"],
    [{ frets: [3] }, "badFrets"],
    [{ frets: [3, -1] }, "badFrets"],
    [{ frets: [3, "4" as unknown as number] }, "badFrets"],
    [{ frets: "34" as unknown as number[] }, "badFrets"],
    [{ changes: ["A", "A"] }, "badChanges"],
    [{ changes: ["*"] }, "badChanges"],
    [{ articulation: "bow" as "pick" }, "badArticulation"],
  ])("D17: refuses %j: %s, adding and editing alike", (wrong, reason) => {
    const ann = replica("ann", 1);
    const [id] = done(addPartEvent(ann.ctx, event()));
    const before = registers(ann.doc);
    expect(addPartEvent(ann.ctx, event(wrong))).toMatchObject({ ok: false, reason });
    expect(editPartEvent(ann.ctx, id!, wrong)).toMatchObject({ ok: false, reason });
    expect(registers(ann.doc)).toEqual(before);
  });
});

describe("strings at frets of their own", () => {
  const held = (on: Replica) =>
    readSong(on.doc).part.map(({ strings, fret, frets }) => [strings, fret, frets]);

  it("D37: each string keeps its fret, whatever the order they are given in; alike they are one fret", () => {
    const ann = replica("ann", 1);
    done(addPartEvent(ann.ctx, event({ strings: [3, 2], frets: [4, 5] })));
    done(addPartEvent(ann.ctx, event({ startSec: 2, endSec: 3, strings: [1, 2, 3], frets: [0, 3, 2] })));
    done(addPartEvent(ann.ctx, event({ startSec: 3, endSec: 4, frets: [7, 7] })));
    expect(held(ann)).toEqual([
      [[2, 3], 4, [5, 4]],
      [[1, 2, 3], 2, [0, 3, 2]],
      [[5, 6], 7, null],
    ]);
  });

  it("D37: one person's frets and another's strings both stand; a string without one lies at the event's", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [id] = done(addPartEvent(ann.ctx, event({ strings: [2, 3], frets: [5, 4] })));
    meet(ann, ben);
    done(editPartEvent(ann.ctx, id!, { frets: [7, 6] }));
    done(editPartEvent(ben.ctx, id!, { strings: [1, 2], changes: ["A"] }));
    meet(ann, ben);
    // String 1 lies at the event's fret, 6, the lowest that Ann gave; string 2 keeps the one that she gave it.
    for (const each of [ann, ben]) expect(held(each)).toEqual([[[1, 2], 6, [6, 7]]]);
  });

  it("D37: a fret edited alone lays all strings at it; another field leaves the frets", () => {
    const ann = replica("ann", 1);
    const [id] = done(addPartEvent(ann.ctx, event({ strings: [2, 3], frets: [5, 4] }), "pencil"));
    done(editPartEvent(ann.ctx, id!, { changes: ["B"] }));
    expect(held(ann)).toEqual([[[2, 3], 4, [5, 4]]]);
    done(editPartEvent(ann.ctx, id!, { strings: [2, 3, 5] }));
    expect(held(ann)).toEqual([[[2, 3, 5], 4, [5, 4, 4]]]);
    done(editPartEvent(ann.ctx, id!, { fret: 8 }));
    expect(held(ann)).toEqual([[[2, 3, 5], 8, null]]);
    done(editPartEvent(ann.ctx, id!, { frets: [8, 7, 6] }));
    done(editPartEvent(ann.ctx, id!, { frets: null }));
    expect(held(ann)).toEqual([[[2, 3, 5], 6, null]]);
  });

  it("D37: an event of an older version, without frets, lies at its one fret, and can be given others", () => {
    const ann = replica("ann", 1);
    const { frets, ...values } = { ...event(), frets: null };
    const stamp = { atMs: 1, madeBy: "ann", madeAtMs: 1 };
    ann.doc.getMap("part").set("old.ink.ann", { stamp: "s", ...stamp, values });
    ann.doc.getMap("part").set("guess.pencil", {
      by: "ann",
      atMs: 1,
      confidence: null,
      values: { ...values, startSec: 5, endSec: 6 },
    });
    expect(held(ann)).toEqual([
      [[5, 6], 3, null],
      [[5, 6], 3, null],
    ]);
    done(editPartEvent(ann.ctx, "old", { frets: [3, 5] }));
    expect(held(ann)[0]).toEqual([[5, 6], 3, [3, 5]]);
  });

  it("D14: an event that loses a string keeps the frets of the others", () => {
    const ann = replica("ann", 1);
    done(addPartEvent({ ...ann.ctx, nowMs: 10 }, event({ strings: [2, 3, 4], frets: [5, 3, 4] })));
    done(addPartEvent({ ...ann.ctx, nowMs: 20 }, event({ strings: [3] })));
    expect(held(ann)).toEqual([
      [[2, 4], 4, [5, 4]],
      [[3], 3, null],
    ]);
  });
});

describe("one event at a time on a string", () => {
  it("D14: the later event ends the earlier, on all its strings; others ring on", () => {
    const ann = replica("ann", 1);
    done(addPartEvent(ann.ctx, event({ startSec: 0, endSec: 4, strings: [5, 6] })));
    done(addPartEvent(ann.ctx, event({ startSec: 0, endSec: 4, strings: [3] })));
    done(addPartEvent(ann.ctx, event({ startSec: 1, endSec: 3, strings: [6, 8] })));
    expect(shown(ann)).toEqual([
      [0, 4, [3], "ink"],
      [0, 1, [5, 6], "ink"],
      [1, 3, [6, 8], "ink"],
    ]);
    expect(readSong(ann.doc).part[1]).toMatchObject({ writtenEndSec: 4, writtenStrings: [5, 6] });
  });

  it("D14: of two that begin together the later edit keeps the string; the other is listed when none is left", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    done(addPartEvent({ ...ann.ctx, nowMs: 10 }, event({ strings: [5] })));
    done(addPartEvent({ ...ann.ctx, nowMs: 10 }, event({ strings: [6, 7] })));
    done(addPartEvent({ ...ben.ctx, nowMs: 20 }, event({ startSec: 1.01, strings: [5, 6] })));
    meet(ann, ben);
    expect(shown(ann)).toEqual([
      [1, 2, [7], "ink"],
      [1.01, 2, [5, 6], "ink"],
    ]);
    expect(readSong(ann.doc).covered.part.map((each) => each.strings)).toEqual([[5]]);
    expect(readSong(ben.doc)).toEqual(readSong(ann.doc));
  });

  it("D14: a guess that begins while ink sounds loses the string", () => {
    const ann = replica("ann", 1);
    done(addPartEvent(ann.ctx, event({ startSec: 0, endSec: 2, strings: [5] })));
    done(addPartEvent(ann.ctx, event({ startSec: 1, endSec: 3, strings: [4, 5] }), "pencil"));
    done(addPartEvent(ann.ctx, event({ startSec: 2, endSec: 3, strings: [5] }), "pencil"));
    expect(shown(ann)).toEqual([
      [0, 2, [5], "ink"],
      [1, 3, [4], "pencil"],
      [2, 3, [5], "pencil"],
    ]);
  });
});
