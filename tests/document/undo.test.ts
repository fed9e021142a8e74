import { describe, expect, it } from "vitest";
import { mergeChanges } from "@/lib/document/commands/changeBounds";
import {
  addChange,
  inkChange,
  inkChanges,
  rubOutChange,
  setChangeLabel,
} from "@/lib/document/commands/changes";
import { addPartEvent, editPartEvent } from "@/lib/document/commands/part";
import { restore } from "@/lib/document/commands/restore";
import { readSong } from "@/lib/document/read/readSong";
import { createUndo } from "@/lib/document/undo";
import { done, hear, meet, type Replica, registers, replica } from "./replicas";

const labels = (on: Replica) => readSong(on.doc).changes.map(({ label, mark }) => `${label} ${mark}`);
const idAt = (on: Replica, index: number) => readSong(on.doc).changes[index]!.id;

function pair(): [Replica, Replica] {
  const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
  hear(ann);
  meet(ann, ben);
  return [ann, ben];
}

describe("undo", () => {
  it("D15: takes back one command a step, and does it again", () => {
    const [ann] = pair();
    const start = readSong(ann.doc);
    const ids = start.changes.map((each) => each.id);
    done(inkChanges(ann.ctx, ids));
    const inked = readSong(ann.doc);
    done(mergeChanges(ann.ctx, ids[0]!, ids[1]!));
    const merged = readSong(ann.doc);
    expect(ann.undo.undo()).toBe(true);
    expect(readSong(ann.doc)).toEqual(inked);
    expect(ann.undo.undo()).toBe(true);
    expect(readSong(ann.doc)).toEqual(start);
    expect(ann.undo.undo()).toBe(false);
    expect(ann.undo.redo() && ann.undo.redo()).toBe(true);
    expect(readSong(ann.doc)).toEqual(merged);
  });

  it("D15: leaves the machine's and others' acts alone, made before, between and after", () => {
    const [ann, ben] = pair();
    done(inkChange(ben.ctx, idAt(ben, 0)));
    meet(ann, ben);
    done(inkChange(ann.ctx, idAt(ann, 1)));
    done(setChangeLabel(ben.ctx, idAt(ben, 2), "F:maj"));
    meet(ann, ben);
    done(rubOutChange(ann.ctx, idAt(ann, 3)));
    expect(labels(ann)).toEqual(["G:maj ink", "C:maj ink", "F:maj ink"]);
    while (ann.undo.undo());
    meet(ann, ben);
    for (const each of [ann, ben]) {
      expect(labels(each)).toEqual(["G:maj ink", "C:maj pencil", "F:maj ink", "G:maj pencil"]);
    }
  });

  it("D15: a field that another wrote since stays as that one wrote it", () => {
    const [ann, ben] = pair();
    done(setChangeLabel(ann.ctx, idAt(ann, 0), "A:min"));
    meet(ann, ben);
    done(setChangeLabel(ben.ctx, idAt(ben, 0), "E:min"));
    meet(ann, ben);
    ann.undo.undo();
    meet(ann, ben);
    for (const each of [ann, ben]) expect(labels(each)[0]).toBe("E:min ink");
  });

  it("D15: one's own edit goes back beneath another's edit of another field", () => {
    const [ann, ben] = pair();
    const [id] = done(
      addPartEvent(ben.ctx, {
        startSec: 0,
        endSec: 1,
        strings: [5],
        fret: 3,
        changes: [],
        articulation: "pick",
      }),
    );
    meet(ann, ben);
    done(editPartEvent(ann.ctx, id!, { fret: 8 }));
    meet(ann, ben);
    done(editPartEvent(ben.ctx, id!, { changes: ["A"] }));
    meet(ann, ben);
    ann.undo.undo();
    meet(ann, ben);
    for (const each of [ann, ben]) {
      expect(readSong(each.doc).part).toMatchObject([{ fret: 3, changes: ["A"], editedBy: "ben" }]);
    }
  });

  it("D15: a record that another edited stays when its maker takes back having made it", () => {
    const [ann, ben] = pair();
    const [id] = done(addChange(ann.ctx, { startSec: 8, endSec: 10, label: "A:min" }));
    meet(ann, ben);
    done(setChangeLabel(ben.ctx, id!, "E:min"));
    meet(ann, ben);
    ann.undo.undo();
    meet(ann, ben);
    for (const each of [ann, ben]) {
      const kept = readSong(each.doc).changes.find((change) => change.id === id);
      expect(kept).toMatchObject({ startSec: 8, endSec: 10, label: "E:min", madeBy: "ann", editedBy: "ben" });
    }
  });

  it("D15: two who ink the same pencil each take back their own ink only", () => {
    const [ann, ben] = pair();
    const id = idAt(ann, 0);
    done(inkChange(ann.ctx, id));
    done(inkChange(ben.ctx, id));
    meet(ann, ben);
    ann.undo.undo();
    meet(ann, ben);
    expect(labels(ben)[0]).toBe("G:maj ink");
    ben.undo.undo();
    meet(ann, ben);
    for (const each of [ann, ben]) expect(labels(each)[0]).toBe("G:maj pencil");
  });

  it("D15: rubbing out and putting back are taken back too", () => {
    const [ann, ben] = pair();
    const id = idAt(ann, 1);
    done(rubOutChange(ben.ctx, id));
    meet(ann, ben);
    done(restore(ann.ctx, "change", id));
    expect(labels(ann)).toHaveLength(4);
    ann.undo.undo();
    expect(labels(ann)).toHaveLength(3);
    ben.undo.undo();
    meet(ann, ben);
    expect(labels(ann)).toHaveLength(4);
  });

  it("D6: edits left by ink that was taken back do not come into force with new ink", () => {
    const [ann, ben] = pair();
    const id = idAt(ann, 0);
    done(setChangeLabel(ann.ctx, id, "A:min"));
    meet(ann, ben);
    done(setChangeLabel(ben.ctx, id, "E:min"));
    meet(ann, ben);
    ann.undo.undo();
    meet(ann, ben);
    ben.undo.undo();
    meet(ann, ben);
    expect(Object.keys(registers(ann.doc))).toContain(`change/${id}.label`);
    expect(labels(ann)[0]).toBe("G:maj pencil");
    done(inkChange(ann.ctx, id));
    expect(labels(ann)[0]).toBe("G:maj ink");
  });

  it("D15: two pages of one person each undo their own acts", () => {
    const page = replica("ann", 1);
    const other = { ...page.ctx, nowMs: 5, origin: { page: 2 } };
    const undoOther = createUndo(page.doc, other.origin);
    done(addChange(page.ctx, { startSec: 0, endSec: 1, label: "G" }));
    done(addChange(other, { startSec: 1, endSec: 2, label: "C" }));
    expect(page.undo.undo()).toBe(true);
    expect(labels(page)).toEqual(["C ink"]);
    expect(undoOther.undo()).toBe(true);
    expect(labels(page)).toEqual([]);
  });

  it("D15: tells when there is something to take back, until told to stop", () => {
    const [ann] = pair();
    let calls = 0;
    const stop = ann.undo.watch(() => calls++);
    expect([ann.undo.canUndo(), ann.undo.canRedo()]).toEqual([false, false]);
    done(inkChange(ann.ctx, idAt(ann, 0)));
    expect([ann.undo.canUndo(), ann.undo.canRedo()]).toEqual([true, false]);
    const made = calls;
    expect(made).toBeGreaterThan(0);
    ann.undo.undo();
    expect([ann.undo.canUndo(), ann.undo.canRedo()]).toEqual([false, true]);
    expect(calls).toBeGreaterThan(made);
    stop();
    const stopped = calls;
    ann.undo.redo();
    expect(calls).toBe(stopped);
    ann.undo.destroy();
  });
});
