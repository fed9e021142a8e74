import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { setChangeLabel } from "@/lib/document/commands/changes";
import { setCovers } from "@/lib/document/commands/covers";
import { giveToSteel, setNoteRole } from "@/lib/document/commands/noteRoles";
import { addNote, editNote, inkNotes, rubOutNote } from "@/lib/document/commands/notes";
import { restore } from "@/lib/document/commands/restore";
import { addStudies } from "@/lib/document/commands/studies";
import { writePassage } from "@/lib/document/commands/writePassage";
import type { Label, LabelAct, LabelValues } from "@/lib/document/labels/Label";
import { readLabels } from "@/lib/document/labels/readLabels";
import { coverSong } from "@/lib/document/read/coverSong";
import { readSong } from "@/lib/document/read/readSong";
import { heardId } from "@/lib/document/records/heardId";
import type { HeardNote } from "@/lib/hearing/Hearing";
import { GUESS_LANES } from "@/lib/lesson/GuessValue";
import { done, hear, heardNote, hearing, meet, type Replica, registers, replica, send } from "./replicas";

type NoteLabel = Label<"note">;

function notesOf({ doc }: Replica): NoteLabel[] {
  return readLabels(doc, null).labels.note;
}

/** The note that begins then, by its pitch. */
function idAt({ doc }: Replica, startSec: number, midi: number): string {
  return readSong(doc).notes.find((note) => note.startSec === startSec && note.midi === midi)!.id;
}

function people(...notes: HeardNote[]): { ann: Replica; ben: Replica } {
  const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
  hear(ann, hearing({ notes }));
  meet(ann, ben);
  return { ann, ben };
}

describe("which ear said so", () => {
  it("D34: is written with the pencil, and stays when another ear says the same", () => {
    const ann = replica("ann", 1);
    hear(ann, hearing({ version: "ear 1", notes: [heardNote(1, 60), heardNote(2, 62)] }), "run 1");
    const before = registers(ann.doc);
    const again = [heardNote(1, 60), heardNote(2, 62, { confidence: 0.4 })];
    hear(ann, hearing({ version: "ear 2", notes: again }), "run 2");
    const written = Object.entries(registers(ann.doc)).filter(([key, value]) => before[key] !== value);
    const changed = `note/${heardId("note", 2, "62")}.pencil`;
    expect(written.map(([key]) => key).sort()).toEqual([changed, "song/heard"]);
    expect(notesOf(ann).map(({ proposed }) => [proposed?.confidence, proposed?.ear])).toEqual([
      [0.8, "ear 1"],
      [0.4, "ear 2"],
    ]);
  });

  it("D34: is told of a passage that was heard alone, and of older pencil not at all", () => {
    const ann = replica("ann", 1);
    hear(ann, hearing({ version: "ear 1", notes: [heardNote(1, 60), heardNote(3, 62)] }));
    const passage = {
      startSec: 2,
      endSec: 4,
      version: "ear 2",
      notes: [heardNote(3, 62), heardNote(3.5, 64)],
    };
    done(writePassage(ann.ctx, passage));
    expect(notesOf(ann).map(({ proposed }) => proposed?.ear)).toEqual(["ear 1", "ear 1", "ear 2"]);
    const key = `${heardId("note", 1, "60")}.pencil`;
    const { ear: _, ...older } = ann.doc.getMap("note").get(key) as { ear: string };
    ann.doc.getMap("note").set(key, older);
    expect(notesOf(ann)[0]?.proposed).toMatchObject({ confidence: 0.8, ear: null });
  });
});

describe("what people made of what was heard", () => {
  it("D35: each act of people is told, with what stood before and what stands", () => {
    const { ann, ben } = people(...[60, 62, 64, 65, 67].map((midi, i) => heardNote(i + 1, midi)));
    done(inkNotes(ann.ctx, [idAt(ann, 1, 60)]));
    done(editNote(ann.ctx, idAt(ann, 2, 62), { midi: 63, endSec: 2.5 }));
    done(rubOutNote(ann.ctx, idAt(ann, 3, 64)));
    done(setNoteRole(ann.ctx, [idAt(ann, 4, 65)], "band"));
    done(addNote(ann.ctx, { startSec: 7, endSec: 8, midi: 70, glides: [] }));
    send(ann, ben);
    done(editNote(ben.ctx, idAt(ben, 2, 63), { midi: 61 }));
    const labels = notesOf(ben);
    expect(labels.map(({ act, changed, by }) => [act, changed, by])).toEqual([
      ["inked", [], ["ann"]],
      ["corrected", ["endSec", "midi"], ["ann", "ben"]],
      ["rubbedOut", [], ["ann"]],
      ["corrected", ["whose"], ["ann"]],
      ["open", [], []],
      ["added", [], ["ann"]],
    ]);
    expect(labels[1]).toMatchObject({
      proposed: { values: { midi: 62, endSec: 3, whose: "steel" }, confidence: 0.8, aside: { steel: 0.9 } },
      settled: { midi: 61, endSec: 2.5, whose: "steel" },
    });
    expect(labels[2]).toMatchObject({ proposed: { values: { midi: 64 } }, settled: null });
    expect(labels[3]?.settled?.whose).toBe("band");
    expect(labels[5]).toMatchObject({ proposed: null, settled: { startSec: 7, midi: 70 } });
  });

  it("D35: a correction that was taken back by hand is none", () => {
    const { ann } = people(heardNote(1, 60));
    done(editNote(ann.ctx, idAt(ann, 1, 60), { midi: 61 }));
    done(editNote(ann.ctx, idAt(ann, 1, 61), { midi: 60 }));
    expect(notesOf(ann)).toMatchObject([{ act: "inked", changed: [] }]);
  });

  it("D35: the other kinds are read alike", () => {
    const { ann } = people();
    const [first] = readSong(ann.doc).changes;
    done(setChangeLabel(ann.ctx, first!.id, "E:min"));
    const { change, grid, home } = readLabels(ann.doc, null).labels;
    expect(change.map(({ act }) => act)).toEqual(["corrected", "open", "open", "open"]);
    expect(change[0]).toMatchObject({
      changed: ["label"],
      proposed: { values: { label: "G:maj" }, aside: { nextBest: [{ label: "E:min" }, {}] } },
      settled: { startSec: 0, endSec: 2, label: "E:min" },
    });
    expect(grid[0]).toMatchObject({ act: "open", proposed: { values: { beatsPerBar: 4, division: 2 } } });
    expect(home[0]).toMatchObject({ act: "open", proposed: { values: { tonic: "G", mode: "major" } } });
  });

  it("D35: a note that was written where the machine had heard the band's says so; the nearest one goes with it", () => {
    const { ann } = people();
    const band = [0, 0.03, 2].map((startSec) => heardNote(startSec, 60, { steel: 0.2, confidence: 0.6 }));
    const { glides, endSec } = band[1]!;
    done(giveToSteel(ann.ctx, { startSec: 0.03, endSec, midi: 60, glides }));
    done(addNote(ann.ctx, { startSec: 2.05, endSec: 2.5, midi: 60.5, glides }));
    done(addNote(ann.ctx, { startSec: 4, endSec: 5, midi: 60, glides }));
    const { note } = readLabels(ann.doc, { notes: band, version: "ear 1" }).labels;
    expect(note.map(({ act, changed }) => [act, changed])).toEqual([
      ["corrected", ["whose"]],
      ["corrected", ["startSec", "endSec", "midi", "whose"]],
      ["added", []],
    ]);
    expect(note[0]?.proposed).toEqual({
      values: { startSec: 0.03, endSec, midi: 60, glides: [], whose: "band" },
      ...{ confidence: 0.6, aside: { steel: 0.2 }, ear: "ear 1" },
    });
    expect(readLabels(ann.doc, null).labels.note.map(({ act }) => act)).toEqual(["added", "added", "added"]);
  });

  it("D35: of ink whose passage was heard over again it tells what was seen", () => {
    const ann = replica("ann", 1);
    hear(ann, hearing({ notes: [] }), "run 1");
    done(writePassage(ann.ctx, { startSec: 0, endSec: 4, version: "ear 2", notes: [heardNote(1, 60)] }));
    done(editNote(ann.ctx, idAt(ann, 1, 60), { midi: 62 }));
    hear(ann, hearing({ notes: [] }), "run 2");
    expect(notesOf(ann)).toMatchObject([
      {
        act: "corrected",
        changed: ["midi"],
        proposed: { values: { midi: 60 }, confidence: null, ear: null },
      },
    ]);
  });

  /** What a session should leave of one note, kept apart from the document. */
  interface Kept {
    proposed: LabelValues["note"] | null;
    settled: LabelValues["note"] | null;
    isTouched: boolean;
    inkedBy: Set<string>;
    said: "steel" | "band" | null;
    rubbedBy: string | null;
  }

  const step = fc.record({
    act: fc.constantFrom("ink", "pitch", "end", "band", "steel", "rub", "restore", "add", "hear"),
    who: fc.nat({ max: 1 }),
    which: fc.nat(),
    amount: fc.nat({ max: 5 }),
  });

  it("D35: labels of notes agree with a plain account of any session", () => {
    const seen = new Set<LabelAct>();
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 25 }), (steps) => {
        const both = [replica("ann", 1), replica("ben", 2)];
        const kept = new Map<string, Kept>();
        let proposedNow = new Set<string>();
        const hearSome = (amount: number, run: number): void => {
          const notes = Array.from({ length: 4 }, (_, i) =>
            heardNote(i + ((i * amount) % 3) * 0.04, 60 + ((i + amount) % 3) / 2, {
              confidence: amount / 10,
            }),
          );
          hear(both[0]!, hearing({ notes }), `run ${run}`);
          proposedNow = new Set();
          for (const { startSec, endSec, midi, glides } of notes) {
            const id = heardId("note", startSec, `${Math.round(midi)}`);
            if (proposedNow.has(id)) continue;
            proposedNow.add(id);
            const before = kept.get(id);
            if (before?.isTouched) continue;
            const proposed = { startSec, endSec, midi, glides, whose: "steel" as const };
            kept.set(id, {
              ...{ proposed, settled: null, isTouched: false },
              ...{ inkedBy: new Set(), said: null, rubbedBy: null },
            });
          }
        };
        const isStanding = (id: string, { settled, rubbedBy }: Kept): boolean =>
          rubbedBy === null && (settled !== null || proposedNow.has(id));

        hearSome(0, 0);
        meet(...both);
        steps.forEach(({ act, who, which, amount }, at) => {
          const on = both[who]!;
          // One clock for both, by which what was said last holds.
          const ctx = { ...on.ctx, nowMs: 1_700_000_000_000 + at };
          const standing = [...kept].filter(([id, note]) => isStanding(id, note));
          const rubbed = [...kept].filter(
            ([id, note]) => note.rubbedBy !== null && (note.settled || proposedNow.has(id)),
          );
          const [id, note] = standing[which % Math.max(1, standing.length)] ?? [];
          const settle = (changed: Partial<LabelValues["note"]>): void => {
            const now = note!.settled ?? note!.proposed!;
            const next = { ...now, ...changed };
            const isNew = note!.settled === null || JSON.stringify(next) !== JSON.stringify(now);
            note!.settled = next;
            note!.isTouched = true;
            if (isNew) note!.inkedBy.add(on.by);
          };
          if (act === "hear") hearSome(amount, at + 1);
          else if (act === "add") {
            const values = { startSec: amount, endSec: amount + 1, midi: 60 + (which % 3) / 2, glides: [] };
            const [made] = done(addNote(ctx, values));
            kept.set(made!, {
              ...{ proposed: null, settled: { ...values, whose: "steel" }, isTouched: true },
              ...{ inkedBy: new Set([on.by]), said: null, rubbedBy: null },
            });
          } else if (act === "restore") {
            const [back, one] = rubbed[which % Math.max(1, rubbed.length)] ?? [];
            if (back && one) {
              done(restore(ctx, "note", back));
              one.rubbedBy = null;
            }
          } else if (id && note) {
            const { startSec } = note.settled ?? note.proposed!;
            if (act === "ink") {
              done(inkNotes(ctx, [id]));
              settle({});
            } else if (act === "pitch") {
              done(editNote(ctx, id, { midi: 60 + amount / 2 }));
              settle({ midi: 60 + amount / 2 });
            } else if (act === "end") {
              done(editNote(ctx, id, { endSec: startSec + 1 + amount }));
              settle({ endSec: startSec + 1 + amount });
            } else if (act === "band" || act === "steel") {
              done(setNoteRole(ctx, [id], act));
              if (note.said !== act || note.settled === null) note.inkedBy.add(on.by);
              note.said = act;
              settle({ whose: act });
            } else {
              done(rubOutNote(ctx, id));
              note.rubbedBy = on.by;
              note.isTouched = true;
            }
          }
          meet(...both);
        });

        const inked = [...kept.values()].filter(({ settled, rubbedBy }) => settled && rubbedBy === null);
        const expected = [...kept].flatMap(([id, { proposed, settled, inkedBy, rubbedBy }]) => {
          const told = (act: LabelAct, stands: typeof settled, by: Iterable<string>) => [
            { act, proposed, settled: stands, by: [...by].sort() },
          ];
          if (rubbedBy !== null) return proposed ? told("rubbedOut", null, [rubbedBy]) : [];
          if (settled) {
            const isSame = proposed && JSON.stringify(proposed) === JSON.stringify(settled);
            return told(proposed ? (isSame ? "inked" : "corrected") : "added", settled, inkedBy);
          }
          if (!proposedNow.has(id)) return [];
          const isSaid = inked.some(
            ({ settled: ink }) =>
              Math.abs(ink!.startSec - proposed!.startSec) <= 0.05 + 1e-9 &&
              Math.abs(ink!.midi - proposed!.midi) <= 0.5,
          );
          return told(isSaid ? "hidden" : "open", null, []);
        });
        const found = notesOf(both[1]!).map(({ act, proposed, settled, by }) => {
          seen.add(act);
          return { act, proposed: proposed?.values ?? null, settled, by: [...by].sort() };
        });
        const inOrder = (list: readonly unknown[]) => list.map((each) => JSON.stringify(each)).sort();
        expect(inOrder(found)).toEqual(inOrder(expected));
      }),
      { numRuns: 150 },
    );
    expect([...seen].sort()).toEqual(["added", "corrected", "hidden", "inked", "open", "rubbedOut"]);
  }, 60_000);
});

describe("labels of what is covered", () => {
  it("D67: are those of the whole song, also for whom it is covered", () => {
    const { ann, ben } = people(heardNote(1, 60), heardNote(2, 62));
    done(inkNotes(ann.ctx, [idAt(ann, 1, 60)]));
    const [id = ""] = done(addStudies(ann.ctx, [{ startSec: 0, endSec: 4, name: "" }]));
    meet(ann, ben);
    const before = readLabels(ben.doc, null);
    done(setCovers(ann.ctx, { target: id, lanes: GUESS_LANES }, "students", true));
    done(setCovers(ben.ctx, { target: "song", lanes: GUESS_LANES }, "self", true));
    meet(ann, ben);
    expect(coverSong(readSong(ben.doc), { id: "ben", isStudent: true }).song.notes).toEqual([]);
    expect(readLabels(ben.doc, null)).toEqual(before);
    expect(before.labels.note.map(({ act }) => act)).toEqual(["inked", "open"]);
  });
});
