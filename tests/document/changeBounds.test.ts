import { describe, expect, it } from "vitest";
import { mergeChanges, moveChangeBoundary } from "@/lib/document/commands/changeBounds";
import { addChange, inkChange, rubOutChange, splitChange } from "@/lib/document/commands/changes";
import { readSong } from "@/lib/document/read/readSong";
import { done, hear, meet, type Replica, registers, replica } from "./replicas";

const shown = (on: Replica) =>
  readSong(on.doc).changes.map(({ startSec, endSec, label, mark }) => [startSec, endSec, label, mark]);
const idAt = (on: Replica, index: number) => readSong(on.doc).changes[index]!.id;

function heardBy(by = "ann"): Replica {
  const on = replica(by, 1);
  hear(on);
  return on;
}

describe("splitting", () => {
  it("D6: makes two inks of one pencil and leaves the rest alone", () => {
    const ann = heardBy();
    const id = idAt(ann, 1);
    const [first, second] = done(splitChange(ann.ctx, id, 3.2));
    expect(first).toBe(id);
    expect(
      readSong(ann.doc)
        .changes.map((each) => each.id)
        .slice(1, 3),
    ).toEqual([id, second]);
    expect(shown(ann)).toEqual([
      [0, 2, "G:maj", "pencil"],
      [2, 3.2, "C:maj", "ink"],
      [3.2, 4, "C:maj", "ink"],
      [4, 6, "D:7", "pencil"],
      [6, 8, "G:maj", "pencil"],
    ]);
  });

  it.each([
    [1, "outside"],
    [2.01, "outside"],
    [3.99, "outside"],
    [Number.NaN, "badTime"],
  ])("D17: refuses a split of 2 to 4 s at %d", (atSec, reason) => {
    const ann = heardBy();
    const before = registers(ann.doc);
    expect(splitChange(ann.ctx, idAt(ann, 1), atSec)).toMatchObject({ ok: false, reason });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D11: splits a change that shows as two stretches where it is seen", () => {
    const ann = replica("ann", 1);
    const [under] = done(addChange(ann.ctx, { startSec: 0, endSec: 8, label: "G:maj" }));
    done(addChange(ann.ctx, { startSec: 3, endSec: 5, label: "D:7" }));
    done(splitChange(ann.ctx, under!, 6));
    expect(shown(ann).map((each) => each.slice(0, 3))).toEqual([
      [0, 3, "G:maj"],
      [3, 5, "D:7"],
      [5, 6, "G:maj"],
      [6, 8, "G:maj"],
    ]);
    expect(splitChange(ann.ctx, under!, 4)).toMatchObject({ reason: "outside" });
  });

  it("D4: two people splitting one change at once leave one valid score", () => {
    const [ann, ben] = [heardBy("ann"), replica("ben", 2)];
    meet(ann, ben);
    splitChange(ann.ctx, idAt(ann, 1), 2.5);
    splitChange(ben.ctx, idAt(ben, 1), 3.5);
    meet(ann, ben);
    expect(shown(ann)).toEqual(shown(ben));
    expect(
      shown(ann)
        .slice(1, 4)
        .map((each) => each.slice(0, 2)),
    ).toEqual([
      [2, 2.5],
      [2.5, 3.5],
      [3.5, 4],
    ]);
  });
});

describe("merging", () => {
  it("D6: the first takes over the second's stretch, in ink", () => {
    const ann = heardBy();
    done(mergeChanges(ann.ctx, idAt(ann, 1), idAt(ann, 2)));
    expect(shown(ann)).toEqual([
      [0, 2, "G:maj", "pencil"],
      [2, 6, "C:maj", "ink"],
      [6, 8, "G:maj", "pencil"],
    ]);
  });

  it("D6: merges over a gap", () => {
    const ann = heardBy();
    rubOutChange(ann.ctx, idAt(ann, 1));
    done(mergeChanges(ann.ctx, idAt(ann, 0), idAt(ann, 1)));
    expect(shown(ann)[0]).toEqual([0, 6, "G:maj", "ink"]);
  });

  it("D17: refuses two that do not follow each other", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    const pairs: [number, number][] = [
      [0, 2],
      [2, 1],
      [1, 1],
    ];
    for (const [a, b] of pairs) {
      expect(mergeChanges(ann.ctx, idAt(ann, a), idAt(ann, b))).toMatchObject({ reason: "notNeighbours" });
    }
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D9: a merge at once with another's inking of the second keeps that ink", () => {
    const [ann, ben] = [heardBy("ann"), replica("ben", 2)];
    meet(ann, ben);
    const [first, second] = [idAt(ann, 1), idAt(ann, 2)];
    mergeChanges(ann.ctx, first, second);
    inkChange(ben.ctx, second);
    meet(ann, ben);
    expect(shown(ann)).toEqual(shown(ben));
    expect(shown(ann).slice(1, 3)).toEqual([
      [2, 4, "C:maj", "ink"],
      [4, 6, "D:7", "ink"],
    ]);
  });
});

describe("moving an edge", () => {
  it.each([2.5, 1.25])("D6: between two neighbours, to %d s; both become ink", (toSec) => {
    const ann = heardBy();
    done(moveChangeBoundary(ann.ctx, idAt(ann, 0), idAt(ann, 1), toSec));
    expect(shown(ann).slice(0, 3)).toEqual([
      [0, toSec, "G:maj", "ink"],
      [toSec, 4, "C:maj", "ink"],
      [4, 6, "D:7", "pencil"],
    ]);
  });

  it("D17: refuses places past the far ends of the two, and changes that are no neighbours", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    const move = (left: number, right: number, toSec: number) =>
      moveChangeBoundary(ann.ctx, idAt(ann, left), idAt(ann, right), toSec);
    expect(move(0, 1, 0.01)).toMatchObject({ reason: "outside" });
    expect(move(0, 1, 3.99)).toMatchObject({ reason: "outside" });
    expect(move(0, 1, Number.NaN)).toMatchObject({ reason: "badTime" });
    expect(move(0, 2, 2)).toMatchObject({ reason: "notNeighbours" });
    expect(moveChangeBoundary(ann.ctx, null, null, 2)).toMatchObject({ reason: "unknownRecord" });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D6: the free edges beside a gap move within the gap only", () => {
    const ann = heardBy();
    rubOutChange(ann.ctx, idAt(ann, 1));
    const [before, after] = [idAt(ann, 0), idAt(ann, 1)];
    done(moveChangeBoundary(ann.ctx, before, null, 2.5));
    done(moveChangeBoundary(ann.ctx, null, after, 3.5));
    expect(moveChangeBoundary(ann.ctx, before, null, 3.6)).toMatchObject({ reason: "outside" });
    expect(moveChangeBoundary(ann.ctx, null, after, 2.4)).toMatchObject({ reason: "outside" });
    expect(shown(ann).slice(0, 2)).toEqual([
      [0, 2.5, "G:maj", "ink"],
      [3.5, 6, "D:7", "ink"],
    ]);
  });

  it("D11: an edge over a change that goes on beneath leaves that change whole", () => {
    const ann = replica("ann", 1);
    const [under] = done(addChange(ann.ctx, { startSec: 0, endSec: 8, label: "G:maj" }));
    const [over] = done(addChange(ann.ctx, { startSec: 3, endSec: 5, label: "D:7" }));
    done(moveChangeBoundary(ann.ctx, under!, over!, 2));
    done(moveChangeBoundary(ann.ctx, over!, under!, 6));
    expect(shown(ann).map((each) => each.slice(0, 3))).toEqual([
      [0, 2, "G:maj"],
      [2, 6, "D:7"],
      [6, 8, "G:maj"],
    ]);
  });

  it("D4: two people moving the two ends past each other leave the change, turned round", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [id] = done(addChange(ann.ctx, { startSec: 2, endSec: 6, label: "G:maj" }));
    meet(ann, ben);
    done(moveChangeBoundary(ann.ctx, null, id!, 5));
    done(moveChangeBoundary(ben.ctx, id!, null, 3));
    meet(ann, ben);
    expect(shown(ann)).toEqual([[3, 5, "G:maj", "ink"]]);
    expect(shown(ben)).toEqual(shown(ann));
    done(moveChangeBoundary(ann.ctx, id!, null, 7));
    expect(shown(ann)).toEqual([[3, 7, "G:maj", "ink"]]);
  });
});
