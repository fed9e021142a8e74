import { describe, expect, it } from "vitest";
import { addNote, editNote, inkNotes, rubOutNote } from "@/lib/document/commands/notes";
import { restore } from "@/lib/document/commands/restore";
import { type HeardPassage, writePassage } from "@/lib/document/commands/writePassage";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import { watchSong } from "@/lib/document/read/watchSong";
import { heardId } from "@/lib/document/records/heardId";
import type { HeardNote } from "@/lib/hearing/Hearing";
import { done, hear, heardNote, hearing, meet, type Replica, registers, replica, send } from "./replicas";
import { expectValid } from "./validSong";

const notes = (on: Replica) =>
  readSong(on.doc).notes.map(({ startSec, midi, mark }) => [startSec, midi, mark]);
const idAt = (on: Replica, index: number) => readSong(on.doc).notes[index]!.id;
const passage = (startSec: number, endSec: number, ...found: HeardNote[]): HeardPassage => ({
  startSec,
  endSec,
  version: "test 1",
  notes: found,
});
const hearPassage = (on: Replica, ...of: Parameters<typeof passage>) => writePassage(on.ctx, passage(...of));

/** A song of which the machine heard four notes a second apart. */
function heardBy(by = "ann", clientId = 1): Replica {
  const on = replica(by, clientId);
  hear(on, hearing({ notes: [0, 1, 2, 3].map((startSec) => heardNote(startSec, 60 + startSec)) }));
  return on;
}

describe("a passage that is heard alone", () => {
  it("D29: its notes take the place of the machine's pencil in it, and of nothing outside; undo is one step", () => {
    const ann = heardBy();
    const before = { song: readSong(ann.doc), registers: registers(ann.doc) };
    const ids = done(
      hearPassage(ann, 1, 3, heardNote(1.4, 70), heardNote(2, 62), heardNote(1.5, 40, { steel: 0.1 })),
    );
    expect(notes(ann)).toEqual([
      [0, 60, "pencil"],
      [1.4, 70, "pencil"],
      [2, 62, "pencil"],
      [3, 63, "pencil"],
    ]);
    expect(ids).toEqual([heardId("note", 1.4, "70"), heardId("note", 2, "62")]);
    expect(readSong(ann.doc).notes[1]).toMatchObject({ madeBy: "machine", steel: 0.9, confidence: 0.8 });
    expect(readSong(ann.doc).passages).toMatchObject([{ startSec: 1, endSec: 3, by: "ann" }]);
    expectValid(readSong(ann.doc));
    ann.undo.undo();
    expect(readSong(ann.doc)).toEqual(before.song);
    expect(registers(ann.doc)).toEqual(before.registers);
    ann.undo.redo();
    expect(notes(ann)).toHaveLength(4);
    expect(notes(ann)[1]).toEqual([1.4, 70, "pencil"]);
  });

  it("D29: a passage can be heard before the song is, and holds until the song is", () => {
    const ann = replica("ann", 1);
    done(hearPassage(ann, 1, 3, heardNote(1.4, 70)));
    expect(notes(ann)).toEqual([[1.4, 70, "pencil"]]);
    hear(ann, hearing({ notes: [heardNote(2, 62)] }));
    expect(notes(ann)).toEqual([[2, 62, "pencil"]]);
    expect(Object.keys(registers(ann.doc)).filter((key) => key.startsWith("passage/"))).toEqual([]);
  });

  it("D29: hearing the song again replaces it; the same run written twice does not", () => {
    const ann = heardBy();
    done(hearPassage(ann, 1, 3, heardNote(1.4, 70)));
    const once = notes(ann);
    hear(ann, hearing({ notes: [0, 1, 2, 3].map((startSec) => heardNote(startSec, 60 + startSec)) }));
    expect(notes(ann)).toEqual(once);
    hear(ann, hearing({ notes: [heardNote(2, 50)] }), "run 2");
    expect(notes(ann)).toEqual([[2, 50, "pencil"]]);
    ann.undo.undo();
    expect(notes(ann)).toEqual([[2, 50, "pencil"]]);
  });

  it("D29: two passages heard at once by two both hold; where they overlap the later does, on every copy", () => {
    const [ann, ben] = [heardBy("ann", 1), replica("ben", 2)];
    meet(ann, ben);
    done(hearPassage(ann, 0, 2, heardNote(0.5, 70), heardNote(1.5, 71)));
    void ben.ctx.nowMs;
    done(hearPassage(ben, 1, 3, heardNote(1.2, 80), heardNote(2.5, 81)));
    meet(ann, ben);
    expect(notes(ann)).toEqual([
      [0.5, 70, "pencil"],
      [1.2, 80, "pencil"],
      [2.5, 81, "pencil"],
      [3, 63, "pencil"],
    ]);
    expect(readSong(ben.doc)).toEqual(readSong(ann.doc));
    ben.undo.undo();
    meet(ann, ben);
    expect(notes(ann).slice(0, 3)).toEqual([
      [0.5, 70, "pencil"],
      [1.5, 71, "pencil"],
      [2, 62, "pencil"],
    ]);
  });

  it("D29: ink in it stays, as it is and where it is, and what says the same is hidden beneath (D26)", () => {
    const ann = heardBy();
    done(inkNotes(ann.ctx, [idAt(ann, 1)]));
    done(editNote(ann.ctx, idAt(ann, 2), { midi: 66 }));
    done(addNote(ann.ctx, { startSec: 2.5, endSec: 3, midi: 55, glides: [] }));
    const ink = readSong(ann.doc).notes.filter(({ mark }) => mark === "ink");
    const found = [heardNote(1.01, 61, { confidence: 0.2 }), heardNote(2, 62), heardNote(2.52, 55.2)];
    done(hearPassage(ann, 1, 3, ...found));
    expect(readSong(ann.doc).notes.filter(({ mark }) => mark === "ink")).toEqual(ink);
    expect(notes(ann)).toHaveLength(5);
    done(hearPassage(ann, 0, 3));
    expect(
      readSong(ann.doc)
        .notes.filter(({ mark }) => mark === "ink")
        .map(({ id }) => id),
    ).toEqual(ink.map(({ id }) => id));
    expect(notes(ann)).toHaveLength(4);
  });

  it("D29: ink made of a note that only the passage has stays when the passage is taken back", () => {
    const [ann, ben] = [heardBy("ann", 1), replica("ben", 2)];
    done(hearPassage(ann, 1, 3, heardNote(1.4, 70)));
    meet(ann, ben);
    done(inkNotes(ben.ctx, [idAt(ben, 1)]));
    meet(ann, ben);
    ann.undo.undo();
    meet(ann, ben);
    expect(notes(ben)).toEqual([
      [0, 60, "pencil"],
      [1, 61, "pencil"],
      [1.4, 70, "ink"],
      [2, 62, "pencil"],
      [3, 63, "pencil"],
    ]);
  });

  it("D19: watchers are told of it once, and of nothing where nothing changed", () => {
    const ann = heardBy();
    const seen: unknown[] = [];
    watchSong(ann.doc, (song) => seen.push(song));
    done(hearPassage(ann, 1, 3, heardNote(1.4, 70)));
    expect(seen).toHaveLength(2);
    expect(seen[1]).toEqual(readSong(ann.doc));
    expect(done(hearPassage(ann, 1, 3, heardNote(1.4, 70)))).toEqual([]);
    expect(seen).toHaveLength(2);
  });
});

describe("what a passage finds again", () => {
  it.each([
    [1.05, 61.5],
    [0.95, 60.5],
  ])("D30: what was rubbed out stays so when it is heard at %d s and %d", (startSec, midi) => {
    const ann = heardBy();
    const id = idAt(ann, 1);
    done(rubOutNote(ann.ctx, id));
    done(hearPassage(ann, 0.5, 1.5, heardNote(startSec, midi)));
    expect(notes(ann).map(([sec]) => sec)).toEqual([0, 2, 3]);
    expect(readRubbedOut(ann.doc, "note")).toMatchObject([{ record: { id, startSec: 1, midi: 61 } }]);
    done(restore(ann.ctx, "note", id));
    expect(notes(ann)[1]).toEqual([1, 61, "pencil"]);
  });

  it("D30: the nearest note keeps its id, over the passage's edge too, and two findings never share one", () => {
    const ann = heardBy();
    const [, id] = readSong(ann.doc).notes.map((note) => note.id);
    done(hearPassage(ann, 1.01, 2, heardNote(1.04, 61.1), heardNote(1.03, 61.2)));
    expect(notes(ann).slice(1, 3)).toEqual([
      [1.03, 61.2, "pencil"],
      [1.04, 61.1, "pencil"],
    ]);
    expect(new Set(readSong(ann.doc).notes.map((note) => note.id)).size).toBe(5);
    expect(
      readSong(ann.doc)
        .notes.slice(1, 3)
        .map((note) => note.id),
    ).toContain(id);
  });

  it("D30: a passage that finds just what stands there writes nothing, and leaves no step to take back", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    expect(done(hearPassage(ann, 1, 3, heardNote(2, 62), heardNote(1, 61)))).toEqual([]);
    expect(registers(ann.doc)).toEqual(before);
    expect(ann.undo.canUndo()).toBe(false);
  });

  it("D30: passages within a new one are taken away with it, and put back with its undo", () => {
    const ann = heardBy();
    done(hearPassage(ann, 1, 2, heardNote(1.4, 70)));
    done(hearPassage(ann, 2, 4, heardNote(3.5, 71)));
    const before = notes(ann);
    done(hearPassage(ann, 1, 3, heardNote(2.5, 72)));
    expect(readSong(ann.doc).passages).toMatchObject([
      { startSec: 1, endSec: 3 },
      { startSec: 2, endSec: 4 },
    ]);
    expect(notes(ann).map(([sec]) => sec)).toEqual([0, 2.5, 3.5]);
    ann.undo.undo();
    expect(notes(ann)).toEqual(before);
  });

  it("D30: a passage that finds nothing leaves none of the machine's pencil in it", () => {
    const ann = heardBy();
    expect(done(hearPassage(ann, 1, 3))).toEqual([]);
    expect(notes(ann).map(([sec]) => sec)).toEqual([0, 3]);
    const ben = replica("ben", 2);
    send(ann, ben);
    expect(readSong(ben.doc)).toEqual(readSong(ann.doc));
  });

  it.each<[string, HeardPassage, string]>([
    ["an end before its start", passage(3, 1), "tooShort"],
    ["no time", passage(Number.NaN, 1), "badTime"],
    ["a note outside it", passage(1, 3, heardNote(3, 60)), "badHearing"],
    ["a pitch that is none", passage(1, 3, heardNote(1, 128)), "badHearing"],
    ["a note that ends before it starts", passage(1, 3, heardNote(1, 60, { endSec: 0 })), "badHearing"],
  ])("D17: a passage with %s is refused whole", (_, wrong, reason) => {
    const ann = heardBy();
    const before = registers(ann.doc);
    expect(writePassage(ann.ctx, wrong)).toMatchObject({ ok: false, reason });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D17: only a person can have a passage heard", () => {
    const ann = heardBy();
    expect(writePassage({ ...ann.ctx, nowMs: 1, by: "machine" }, passage(1, 3))).toMatchObject({
      reason: "notAPerson",
    });
  });
});
