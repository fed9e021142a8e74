import { describe, expect, it } from "vitest";
import {
  addPartEvent,
  editPartEvent,
  inkPartEvents,
  type PartEventFields,
} from "@/lib/document/commands/part";
import { readSong } from "@/lib/document/read/readSong";
import type { Technique } from "@/lib/notation/Technique";
import { done, meet, type Replica, registers, replica } from "./replicas";

const event = (changed: Partial<PartEventFields> = {}): PartEventFields => ({
  ...{ startSec: 1, endSec: 2, strings: [5, 6], fret: 3, changes: [], articulation: "pick" },
  ...changed,
});
const techniques = (on: Replica) => readSong(on.doc).part.map((each) => each.techniques);

describe("playing techniques", () => {
  it("D48: are read in one order, and none where nothing is said", () => {
    const ann = replica("ann", 1);
    done(addPartEvent(ann.ctx, event({ techniques: ["block", "harmonic"] })));
    done(addPartEvent(ann.ctx, event({ startSec: 2, endSec: 3 }), "pencil"));
    expect(techniques(ann)).toEqual([["harmonic", "block"], []]);
  });

  it("D48: one person's and another's both stand, each taken back by its own maker alone", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const [id] = done(addPartEvent(ann.ctx, event({ techniques: ["block"] })));
    meet(ann, ben);
    done(editPartEvent(ann.ctx, id!, { techniques: ["block", "vibrato"] }));
    done(editPartEvent(ben.ctx, id!, { techniques: ["harmonic", "block"] }));
    meet(ann, ben);
    for (const each of [ann, ben]) expect(techniques(each)).toEqual([["harmonic", "vibrato", "block"]]);
    ann.undo.undo();
    meet(ann, ben);
    for (const each of [ann, ben]) expect(techniques(each)).toEqual([["harmonic", "block"]]);
  });

  it("D48: stay where another field is edited, and where pencil is inked", () => {
    const ann = replica("ann", 1);
    const [id] = done(addPartEvent(ann.ctx, event({ techniques: ["vibrato"] }), "pencil"));
    done(inkPartEvents(ann.ctx, [id!]));
    done(editPartEvent(ann.ctx, id!, { fret: 8, strings: [4, 5] }));
    expect(readSong(ann.doc).part).toMatchObject([{ fret: 8, techniques: ["vibrato"] }]);
    done(editPartEvent(ann.ctx, id!, { techniques: [] }));
    expect(techniques(ann)).toEqual([[]]);
  });

  it("D48: an event of an older version, without them, has none, and can be given some", () => {
    const ann = replica("ann", 1);
    const values = { ...event(), frets: null };
    ann.doc.getMap("part").set("old.ink.ann", { stamp: "s", atMs: 1, madeBy: "ann", madeAtMs: 1, values });
    expect(techniques(ann)).toEqual([[]]);
    done(editPartEvent(ann.ctx, "old", { techniques: ["harmonic"] }));
    expect(techniques(ann)).toEqual([["harmonic"]]);
  });

  it("D48: what a newer version says that cannot be read is passed over", () => {
    const ann = replica("ann", 1);
    const [id] = done(addPartEvent(ann.ctx, event({ techniques: ["vibrato"] })));
    ann.doc.getMap("part").set(`${id}.vibrato`, "wide");
    expect(techniques(ann)).toEqual([["vibrato"]]);
  });

  it.each([[["block", "block"]], [["bow"]], ["vibrato"]])(
    "D17: refuses %j, adding and editing alike",
    (wrong) => {
      const ann = replica("ann", 1);
      const [id] = done(addPartEvent(ann.ctx, event()));
      const before = registers(ann.doc);
      const fields = { techniques: wrong as Technique[] };
      expect(addPartEvent(ann.ctx, event(fields))).toMatchObject({ ok: false, reason: "badTechniques" });
      expect(editPartEvent(ann.ctx, id!, fields)).toMatchObject({ ok: false, reason: "badTechniques" });
      expect(registers(ann.doc)).toEqual(before);
    },
  );
});

describe("a tie", () => {
  it("D49: is written and read as any articulation, whatever rings before it", () => {
    const ann = replica("ann", 1);
    done(addPartEvent(ann.ctx, event({ articulation: "tie" })));
    const [id] = done(addPartEvent(ann.ctx, event({ startSec: 2, endSec: 3 })));
    done(editPartEvent(ann.ctx, id!, { articulation: "tie" }));
    expect(readSong(ann.doc).part.map((each) => each.articulation)).toEqual(["tie", "tie"]);
  });
});
