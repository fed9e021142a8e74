import { describe, expect, it } from "vitest";
import { giveToSteel, setNoteRole } from "@/lib/document/commands/noteRoles";
import { editNote, inkNotes, rubOutNote } from "@/lib/document/commands/notes";
import { restore } from "@/lib/document/commands/restore";
import { readSong } from "@/lib/document/read/readSong";
import { heardId } from "@/lib/document/records/heardId";
import { recordMap } from "@/lib/document/records/storage";
import { done, hear, heardNote, hearing, meet, type Replica, registers, replica } from "./replicas";

const BAND = { startSec: 1, endSec: 2, midi: 43, glides: [] };
const steel = (on: Replica) => readSong(on.doc).notes.map(({ midi, mark }) => [midi, mark]);
const band = (on: Replica) => readSong(on.doc).bandNotes.map(({ midi, mark }) => [midi, mark]);

/** A copy on which the hearing of replicas.ts stands: 59 and 64.1 are the steel's, 43 the band's. */
function heardBy(by = "ann", clientId = 1): Replica & { ids: string[] } {
  const on = replica(by, clientId);
  hear(on);
  return { ...on, ctx: on.ctx, ids: readSong(on.doc).notes.map(({ id }) => id) };
}

describe("whose a note is", () => {
  it("D31: nobody has said so of what was only heard, inked or edited", () => {
    const ann = heardBy();
    done(inkNotes(ann.ctx, [ann.ids[0]!]));
    done(editNote(ann.ctx, ann.ids[1]!, { midi: 65 }));
    expect(readSong(ann.doc).notes.map(({ role }) => role)).toEqual([null, null]);
    expect(band(ann)).toEqual([]);
  });

  it("D31: a note given to the band goes from the steel's, in ink, and says who gave it and when", () => {
    const ann = heardBy();
    done(setNoteRole({ ...ann.ctx, nowMs: 77 }, [ann.ids[1]!], "band"));
    expect(steel(ann)).toEqual([[59, "pencil"]]);
    expect(band(ann)).toEqual([[64.1, "ink"]]);
    expect(readSong(ann.doc).bandNotes).toMatchObject([
      { steel: 0.9, role: { whose: "band", by: "ann", atMs: 77 }, editedBy: "ann", editedAtMs: 77 },
    ]);
  });

  it("D31: it stays with the band however it is heard again, and hides what says the same", () => {
    const ann = heardBy();
    done(setNoteRole(ann.ctx, [ann.ids[1]!], "band"));
    hear(ann, hearing({ notes: [heardNote(1, 59), heardNote(1.03, 64.3)] }), "run 2");
    expect(steel(ann)).toEqual([[59, "pencil"]]);
    expect(band(ann)).toEqual([[64.1, "ink"]]);
    hear(ann, hearing({ notes: [] }), "run 3");
    expect(band(ann)).toEqual([[64.1, "ink"]]);
  });

  it("D31: of two who say otherwise the later holds on every copy, and neither saying is lost", () => {
    const [ann, ben] = [heardBy("ann"), replica("ben", 2)];
    meet(ann, ben);
    const [id] = ann.ids;
    done(setNoteRole({ ...ben.ctx, nowMs: 10 }, [id!], "steel"));
    done(setNoteRole({ ...ann.ctx, nowMs: 20 }, [id!], "band"));
    meet(ann, ben);
    for (const each of [ann, ben]) {
      expect(readSong(each.doc).bandNotes).toMatchObject([
        { id, role: { whose: "band", by: "ann", atMs: 20 } },
      ]);
      const notes = recordMap(each.doc, "note");
      expect(notes.get(`${id}.role.ben`)).toEqual({ whose: "steel", atMs: 10 });
    }
    done(setNoteRole({ ...ben.ctx, nowMs: 20 }, [id!], "steel"));
    meet(ann, ben);
    // At one millisecond the higher person id holds.
    for (const each of [ann, ben]) expect(readSong(each.doc).notes[0]).toMatchObject({ role: { by: "ben" } });
  });

  it("D31: saying it of several is one step of undo; saying it again writes nothing", () => {
    const ann = heardBy();
    done(setNoteRole(ann.ctx, [...ann.ids, ann.ids[0]!], "band"));
    expect(steel(ann)).toEqual([]);
    const before = registers(ann.doc);
    expect(done(setNoteRole(ann.ctx, ann.ids, "band"))).toEqual([]);
    expect(registers(ann.doc)).toEqual(before);
    ann.undo.undo();
    expect(steel(ann)).toEqual([
      [59, "pencil"],
      [64.1, "pencil"],
    ]);
    expect(Object.keys(registers(ann.doc)).filter((key) => key.includes("role"))).toEqual([]);
  });

  it("D31: of a note that is not there, or rubbed out, nothing is said", () => {
    const ann = heardBy();
    done(rubOutNote(ann.ctx, ann.ids[1]!));
    const before = registers(ann.doc);
    expect(setNoteRole(ann.ctx, [ann.ids[0]!, "nobody"], "band")).toMatchObject({ reason: "unknownRecord" });
    expect(setNoteRole(ann.ctx, [ann.ids[1]!], "band")).toMatchObject({ reason: "rubbedOut" });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D5: a role that cannot be read is passed over", () => {
    const ann = heardBy();
    const notes = recordMap(ann.doc, "note");
    for (const [by, value] of Object.entries({
      ben: "band",
      cy: { whose: "drums", atMs: 9 },
      dee: { whose: "band" },
    }))
      notes.set(`${ann.ids[0]}.role.${by}`, value);
    expect(readSong(ann.doc).notes[0]).toMatchObject({ role: null, mark: "pencil" });
  });
});

describe("a note of the band given to the steel", () => {
  it("D32: stands in ink among the steel's, under the id of the finding, and says who gave it", () => {
    const ann = heardBy();
    const glides = [{ kind: "bar" as const, toMidi: 45, atSec: 1.5, durationSec: 0.1 }];
    const [id] = done(giveToSteel(ann.ctx, { ...BAND, midi: 43.2, glides }));
    expect(id).toBe(heardId("note", 1, "43"));
    expect(readSong(ann.doc).notes[0]).toMatchObject({
      ...{ id, midi: 43.2, glides, mark: "ink", steel: null, madeBy: "ann" },
      role: { whose: "steel", by: "ann" },
    });
    ann.undo.undo();
    expect(steel(ann)).toHaveLength(2);
    expect(Object.keys(registers(ann.doc)).filter((key) => key.includes(id!))).toEqual([]);
  });

  it("D32: given by two at once it is one note", () => {
    const [ann, ben] = [heardBy("ann"), replica("ben", 2)];
    meet(ann, ben);
    done(giveToSteel(ann.ctx, BAND));
    done(giveToSteel(ben.ctx, BAND));
    meet(ann, ben);
    for (const each of [ann, ben]) expect(steel(each).filter(([midi]) => midi === 43)).toHaveLength(1);
  });

  it("D32: one that the steel was taken from, or that was rubbed out, comes back", () => {
    const ann = heardBy();
    const [id] = done(giveToSteel(ann.ctx, BAND));
    done(setNoteRole(ann.ctx, [id!], "band"));
    expect(band(ann)).toEqual([[43, "ink"]]);
    done(giveToSteel(ann.ctx, { ...BAND, endSec: 3 }));
    expect(readSong(ann.doc).notes[0]).toMatchObject({ id, endSec: 3, role: { whose: "steel" } });
    done(rubOutNote(ann.ctx, id!));
    expect(steel(ann)).toHaveLength(2);
    done(giveToSteel(ann.ctx, { ...BAND, endSec: 3 }));
    expect(steel(ann)[0]).toEqual([43, "ink"]);
    done(rubOutNote(ann.ctx, id!));
    done(restore(ann.ctx, "note", id!));
    expect(steel(ann)[0]).toEqual([43, "ink"]);
  });

  it("D17: nonsense is refused, and nothing is written", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    expect(giveToSteel(ann.ctx, { ...BAND, midi: 128 })).toMatchObject({ reason: "badNote" });
    expect(giveToSteel(ann.ctx, { ...BAND, endSec: 1 })).toMatchObject({ reason: "tooShort" });
    expect(giveToSteel({ ...ann.ctx, by: "machine" }, BAND)).toMatchObject({ reason: "notAPerson" });
    expect(registers(ann.doc)).toEqual(before);
  });
});
