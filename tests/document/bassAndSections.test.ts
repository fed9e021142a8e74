import { describe, expect, it } from "vitest";
import {
  addBassNote,
  inkBassNotes,
  moveBassBoundary,
  rubOutBassNote,
  setBassPitch,
} from "@/lib/document/commands/bass";
import { restore } from "@/lib/document/commands/restore";
import {
  addSection,
  inkSections,
  moveSectionBoundary,
  renameSections,
  rubOutSection,
} from "@/lib/document/commands/sections";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import type { ShownBassNote } from "@/lib/document/read/SongSnapshot";
import { watchSong } from "@/lib/document/read/watchSong";
import { bassLine, done, hear, hearing, meet, type Replica, registers, replica } from "./replicas";

const notes = (on: Replica) =>
  readSong(on.doc).bass.map(({ startSec, endSec, midi, mark }) => [startSec, endSec, midi, mark]);
const sections = (on: Replica) =>
  readSong(on.doc).sections.map(({ startSec, endSec, label, transposedSemitones, mark }) => [
    startSec,
    endSec,
    label,
    transposedSemitones,
    mark,
  ]);
const noteAt = (on: Replica, index: number) => readSong(on.doc).bass[index]!.id;
const sectionAt = (on: Replica, index: number) => readSong(on.doc).sections[index]!.id;

function heardBy(by = "ann"): Replica {
  const on = replica(by, 1);
  hear(on);
  return on;
}

describe("the bass line", () => {
  it("D7: is pencilled by the machine, with how sure it is", () => {
    const ann = heardBy();
    expect(notes(ann)).toEqual([
      [0, 1.5, 43, "pencil"],
      [2, 3.5, 36, "pencil"],
      [4, 5.5, 38, "pencil"],
      [6, 7.5, 43, "pencil"],
    ]);
    expect(readSong(ann.doc).bass[0]).toMatchObject({ madeBy: "machine", confidence: 0.5 });
  });

  it("D6: is inked, several notes in one act and one step of undo, and told another pitch", () => {
    const ann = heardBy();
    done(inkBassNotes(ann.ctx, [noteAt(ann, 0), noteAt(ann, 1), noteAt(ann, 0)]));
    done(setBassPitch(ann.ctx, noteAt(ann, 2), 40));
    expect(notes(ann).map(([, , midi, mark]) => [midi, mark])).toEqual([
      [43, "ink"],
      [36, "ink"],
      [40, "ink"],
      [43, "pencil"],
    ]);
    expect(readSong(ann.doc).bass[2]).toMatchObject({ confidence: null, editedBy: "ann" });
    ann.undo.undo();
    ann.undo.undo();
    expect(notes(ann).every(([, , , mark]) => mark === "pencil")).toBe(true);
  });

  it("D21: an inked note takes its time from the pencil beneath, as a change would", () => {
    const ann = heardBy();
    done(addBassNote(ann.ctx, { startSec: 3, endSec: 4.5, midi: 37 }));
    expect(notes(ann).slice(1, 4)).toEqual([
      [2, 3, 36, "pencil"],
      [3, 4.5, 37, "ink"],
      [4.5, 5.5, 38, "pencil"],
    ]);
    expect(readSong(ann.doc).bass[1]).toMatchObject({ writtenStartSec: 2, writtenEndSec: 3.5, stretch: 0 });
  });

  it("D21: takes whole MIDI numbers only", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    for (const midi of [Number.NaN, 40.5, -1, 128]) {
      expect(setBassPitch(ann.ctx, noteAt(ann, 0), midi)).toMatchObject({ reason: "badPitch" });
      expect(addBassNote(ann.ctx, { startSec: 0, endSec: 1, midi })).toMatchObject({ reason: "badPitch" });
    }
    expect(addBassNote(ann.ctx, { startSec: 1, endSec: 1, midi: 40 })).toMatchObject({ reason: "tooShort" });
    expect(setBassPitch(ann.ctx, "nobody", 40)).toMatchObject({ reason: "unknownRecord" });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D21: its edges move like those of changes, up to the next note and no further", () => {
    const ann = heardBy();
    done(moveBassBoundary(ann.ctx, noteAt(ann, 0), null, 2));
    done(moveBassBoundary(ann.ctx, noteAt(ann, 0), noteAt(ann, 1), 1));
    expect(notes(ann).slice(0, 2)).toEqual([
      [0, 1, 43, "ink"],
      [1, 3.5, 36, "ink"],
    ]);
    expect(moveBassBoundary(ann.ctx, null, noteAt(ann, 2), 3)).toMatchObject({ reason: "outside" });
  });

  it("D10: is rubbed out and put back", () => {
    const ann = heardBy();
    const id = noteAt(ann, 1);
    done(rubOutBassNote(ann.ctx, id));
    expect(notes(ann)).toHaveLength(3);
    expect(readRubbedOut(ann.doc, "bass")).toMatchObject([{ record: { id, midi: 36 }, rubbedBy: "ann" }]);
    hear(ann, hearing(), "run 2");
    expect(notes(ann)).toHaveLength(3);
    done(restore(ann.ctx, "bass", id));
    expect(notes(ann)).toHaveLength(4);
  });

  it("D3: two pitches given to one note at once: one holds, on both copies", () => {
    const [ann, ben] = [heardBy("ann"), replica("ben", 2)];
    meet(ann, ben);
    done(setBassPitch(ann.ctx, noteAt(ann, 0), 41));
    done(setBassPitch(ben.ctx, noteAt(ben, 0), 42));
    meet(ann, ben);
    expect(notes(ann)).toEqual(notes(ben));
    expect([41, 42]).toContain(notes(ann)[0]![2]);
  });

  it("D19: three thousand notes are heard in one act, and one inked note changes one object", () => {
    const ann = replica("ann", 1);
    const many = Array.from({ length: 3000 }, (_, index) => 36 + (index % 12));
    done(hear(ann, hearing({ bass: bassLine(...many) })));
    const seen: ShownBassNote[][] = [];
    watchSong(ann.doc, (song) => seen.push(song.bass));
    done(inkBassNotes(ann.ctx, [noteAt(ann, 1500)]));
    const [before, after] = seen;
    expect(before).toHaveLength(3000);
    expect(after!.filter((note) => note.mark === "ink").map((note) => note.startSec)).toEqual([3000]);
    expect(after!.flatMap((note, index) => (note === before![index] ? [] : [index]))).toEqual([1500]);
  }, 60_000);
});

describe("sections", () => {
  it("D7: are pencilled by the machine, with their letters and how far each is moved", () => {
    const ann = heardBy();
    expect(sections(ann)).toEqual([
      [0, 4, "A", 0, "pencil"],
      [4, 8, "A", 2, "pencil"],
    ]);
    expect(readSong(ann.doc).sections[1]).toMatchObject({ madeBy: "machine", confidence: 0.5 });
  });

  it("D22: all of one letter are given one name in one act, and so still repeat one another", () => {
    const ann = heardBy();
    done(renameSections(ann.ctx, [sectionAt(ann, 0), sectionAt(ann, 1)], " Verse "));
    expect(sections(ann)).toEqual([
      [0, 4, "Verse", 0, "ink"],
      [4, 8, "Verse", 2, "ink"],
    ]);
    ann.undo.undo();
    expect(sections(ann).map((each) => each[2])).toEqual(["A", "A"]);
  });

  it("D22: a name is 1 to 40 characters; refused, nothing is renamed", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    const ids = [sectionAt(ann, 0), sectionAt(ann, 1)];
    for (const name of ["", "  ", "x".repeat(41)])
      expect(renameSections(ann.ctx, ids, name)).toMatchObject({ reason: "badName" });
    expect(renameSections(ann.ctx, [ids[0]!, "nobody"], "Verse")).toMatchObject({ reason: "unknownRecord" });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D6: are inked as they are seen, and a moved edge inks both sides", () => {
    const ann = heardBy();
    done(inkSections(ann.ctx, [sectionAt(ann, 0)]));
    done(moveSectionBoundary(ann.ctx, sectionAt(ann, 0), sectionAt(ann, 1), 5));
    expect(sections(ann)).toEqual([
      [0, 5, "A", 0, "ink"],
      [5, 8, "A", 2, "ink"],
    ]);
    expect(moveSectionBoundary(ann.ctx, sectionAt(ann, 1), sectionAt(ann, 0), 6)).toMatchObject({
      reason: "notNeighbours",
    });
  });

  it("D22: a section written over others takes its time from them", () => {
    const ann = heardBy();
    done(addSection(ann.ctx, { startSec: 3, endSec: 5, label: "Turnaround" }));
    expect(sections(ann)).toEqual([
      [0, 3, "A", 0, "pencil"],
      [3, 5, "Turnaround", 0, "ink"],
      [5, 8, "A", 2, "pencil"],
    ]);
  });

  it("D10: are rubbed out and put back", () => {
    const ann = heardBy();
    const id = sectionAt(ann, 1);
    done(rubOutSection(ann.ctx, id));
    expect(sections(ann)).toHaveLength(1);
    done(restore(ann.ctx, "section", id));
    expect(sections(ann)).toHaveLength(2);
  });

  it("D8: hearing again leaves an inked section alone and moves the pencil", () => {
    const ann = heardBy();
    done(renameSections(ann.ctx, [sectionAt(ann, 0)], "Intro"));
    const again = [
      { startSec: 0, endSec: 2, label: "A", transposedSemitones: 0, confidence: 0.5 },
      { startSec: 2, endSec: 8, label: "B", transposedSemitones: 0, confidence: 0.5 },
    ];
    done(hear(ann, hearing({ sections: again }), "run 2"));
    expect(sections(ann)).toEqual([
      [0, 4, "Intro", 0, "ink"],
      [4, 8, "B", 0, "pencil"],
    ]);
  });
});
