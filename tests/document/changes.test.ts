import { describe, expect, it } from "vitest";
import {
  addChange,
  inkChange,
  inkChanges,
  rubOutChange,
  setChangeLabel,
  splitChange,
} from "@/lib/document/commands/changes";
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

describe("inking", () => {
  it("D6: inks one pencilled change and no other", () => {
    const ann = heardBy();
    expect(done(inkChange(ann.ctx, idAt(ann, 1)))).toEqual([idAt(ann, 1)]);
    expect(shown(ann).map((each) => each[3])).toEqual(["pencil", "ink", "pencil", "pencil"]);
  });

  it("D16: says who made a record and who inked it, and when", () => {
    const ann = heardBy();
    inkChange(ann.ctx, idAt(ann, 1));
    const { madeBy, madeAtMs, editedBy, editedAtMs } = readSong(ann.doc).changes[1]!;
    expect([madeBy, madeAtMs, editedBy]).toEqual(["machine", 1_600_000_000_000, "ann"]);
    expect(editedAtMs).toBeGreaterThan(1_700_000_000_000);
  });

  it("D6: of two people's ink the later act counts as the latest edit", () => {
    for (const [annMs, benMs, latest] of [
      [10, 20, "ben"],
      [20, 10, "ann"],
      [10, 10, "ben"],
    ] as const) {
      const [ann, ben] = [heardBy("ann"), replica("ben", 2)];
      meet(ann, ben);
      done(inkChange({ ...ann.ctx, nowMs: annMs }, idAt(ann, 0)));
      done(inkChange({ ...ben.ctx, nowMs: benMs }, idAt(ben, 0)));
      meet(ann, ben);
      for (const each of [ann, ben]) {
        const editedAtMs = Math.max(annMs, benMs);
        expect(readSong(each.doc).changes[0]).toMatchObject({ editedBy: latest, editedAtMs });
      }
    }
  });

  it("D6: inks many in one act, each once", () => {
    const ann = heardBy();
    const ids = readSong(ann.doc).changes.map((each) => each.id);
    let transactions = 0;
    ann.doc.on("afterTransaction", () => transactions++);
    expect(done(inkChanges(ann.ctx, [...ids, ids[0]!]))).toEqual(ids);
    expect(shown(ann).every((each) => each[3] === "ink")).toBe(true);
    expect(transactions).toBe(1);
  });

  it("D17: inks none of many when one is unknown", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    expect(inkChanges(ann.ctx, [idAt(ann, 0), "nobody"])).toMatchObject({
      ok: false,
      reason: "unknownRecord",
    });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D6: leaves ink that is ink already as it is", () => {
    const ann = heardBy();
    inkChange(ann.ctx, idAt(ann, 0));
    const before = registers(ann.doc);
    expect(done(inkChange(ann.ctx, idAt(ann, 0)))).toEqual([]);
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D6: inks a partly covered change as it is seen, so that the picture stays", () => {
    const ann = heardBy();
    addChange(ann.ctx, { startSec: 1.5, endSec: 2.5, label: "A:min" });
    const before = shown(ann).map((each) => each.slice(0, 3));
    inkChange(ann.ctx, idAt(ann, 2));
    expect(shown(ann).map((each) => each.slice(0, 3))).toEqual(before);
    expect(shown(ann)[2]).toEqual([2.5, 4, "C:maj", "ink"]);
  });

  it("D6: refuses to ink what cannot be seen", () => {
    const ann = heardBy();
    const id = idAt(ann, 1);
    addChange(ann.ctx, { startSec: 2, endSec: 4, label: "A:min" });
    expect(inkChange(ann.ctx, id)).toMatchObject({ ok: false, reason: "notShown" });
  });
});

describe("naming", () => {
  it("D6: makes ink, with the label as written and no certainty", () => {
    const ann = heardBy();
    done(setChangeLabel(ann.ctx, idAt(ann, 1), " A:min/b3 "));
    expect(readSong(ann.doc).changes[1]).toMatchObject({ label: "A:min/b3", mark: "ink", confidence: null });
  });

  // Harte et al., "Symbolic representation of musical chords", ISMIR 2005: the syntax of labels.
  it.each(["", "H:maj", "G:", "G:nosuch", "g", "G:maj/x"])("D17: refuses %j as no Harte label", (label) => {
    const ann = heardBy();
    const before = registers(ann.doc);
    expect(setChangeLabel(ann.ctx, idAt(ann, 0), label)).toMatchObject({ ok: false, reason: "badLabel" });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D3: two people's edits of different fields both stand", () => {
    const [ann, ben] = [heardBy("ann"), replica("ben", 2)];
    meet(ann, ben);
    const id = idAt(ann, 1);
    setChangeLabel(ann.ctx, id, "A:min");
    splitChange(ben.ctx, id, 3);
    meet(ann, ben);
    expect(shown(ann)).toEqual(shown(ben));
    expect(shown(ann).slice(1, 3)).toEqual([
      [2, 3, "A:min", "ink"],
      [3, 4, "C:maj", "ink"],
    ]);
  });
});

describe("adding and rubbing out", () => {
  it("D11: adds ink over pencil", () => {
    const ann = heardBy();
    done(addChange(ann.ctx, { startSec: 3, endSec: 5, label: "E:min" }));
    expect(shown(ann).slice(1, 4)).toEqual([
      [2, 3, "C:maj", "pencil"],
      [3, 5, "E:min", "ink"],
      [5, 6, "D:7", "pencil"],
    ]);
  });

  it.each([
    [{ startSec: Number.NaN, endSec: 2, label: "G" }, "badTime"],
    [{ startSec: 0, endSec: Number.POSITIVE_INFINITY, label: "G" }, "badTime"],
    [{ startSec: -1, endSec: 2, label: "G" }, "badTime"],
    [{ startSec: 2, endSec: 1, label: "G" }, "tooShort"],
    [{ startSec: 1, endSec: 1.01, label: "G" }, "tooShort"],
    [{ startSec: 1, endSec: 2, label: "?" }, "badLabel"],
  ])("D17: refuses %j: %s", (change, reason) => {
    const ann = heardBy();
    const before = registers(ann.doc);
    expect(addChange(ann.ctx, change)).toMatchObject({ ok: false, reason });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D9: rubbing out hides the change and deletes nothing", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    done(rubOutChange(ann.ctx, idAt(ann, 1)));
    expect(shown(ann).map((each) => each[2])).toEqual(["G:maj", "D:7", "G:maj"]);
    expect(registers(ann.doc)).toMatchObject(before);
  });

  it("D9: refuses what is rubbed out already, or unknown", () => {
    const ann = heardBy();
    const id = idAt(ann, 1);
    rubOutChange(ann.ctx, id);
    expect(rubOutChange(ann.ctx, id)).toMatchObject({ ok: false, reason: "rubbedOut" });
    expect(inkChange(ann.ctx, id)).toMatchObject({ ok: false, reason: "rubbedOut" });
    expect(rubOutChange(ann.ctx, "nobody")).toMatchObject({ ok: false, reason: "unknownRecord" });
  });
});

describe("who may write", () => {
  it("D7: the machine cannot ink", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    const machine = { ...ann.ctx, by: "machine" };
    expect(inkChange(machine, idAt(ann, 0))).toMatchObject({ ok: false, reason: "notAPerson" });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D7: ink under the machine's name counts for nothing", () => {
    const ann = heardBy();
    const ink = { stamp: "x", atMs: 1, madeBy: "machine", madeAtMs: 1, values: null };
    ann.doc.getMap("change").set(`${idAt(ann, 0)}.ink.machine`, ink);
    expect(shown(ann)[0]![3]).toBe("pencil");
  });

  it("D17: refuses a clock without time and ids that cannot be used", () => {
    const ann = heardBy();
    const change = { startSec: 1, endSec: 2, label: "G" };
    expect(addChange({ ...ann.ctx, nowMs: Number.NaN }, change)).toMatchObject({ reason: "badClock" });
    expect(addChange({ ...ann.ctx, nowMs: 1, newId: () => "a.b" }, change)).toMatchObject({
      reason: "badId",
    });
    expect(addChange({ ...ann.ctx, nowMs: 1, newId: () => idAt(ann, 0) }, change)).toMatchObject({
      reason: "badId",
    });
  });
});
