import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addNote, inkNotes, rubOutNote } from "@/lib/document/commands/notes";
import { goneOver } from "@/lib/document/labels/goneOver";
import type { Label, LabelAct } from "@/lib/document/labels/Label";
import { readLabels } from "@/lib/document/labels/readLabels";
import { readSong } from "@/lib/document/read/readSong";
import { done, hear, heardNote, hearing, replica } from "./replicas";

/** A label of a note from one time to another. */
function label(act: LabelAct, startSec: number, endSec: number): Label<"note"> {
  const values = { startSec, endSec, midi: 60, glides: [], whose: "steel" as const };
  const proposed = { values, confidence: 0.8, aside: null, ear: "ear 1" };
  const stands = act === "inked" || act === "corrected" || act === "added";
  return {
    ...{ act, changed: [], by: [] },
    proposed: act === "added" ? null : proposed,
    settled: stands ? values : null,
  };
}

const spans = (labels: readonly Label<"note">[]) =>
  goneOver(labels).map(({ startSec, endSec }) => [startSec, endSec]);

describe("where notes have been gone over", () => {
  it("D36: three settled notes in a row, from the first start to the last end, whatever was made of them", () => {
    const three = [label("corrected", 1, 2), label("rubbedOut", 2, 3.5), label("added", 3, 3.4)];
    expect(spans(three)).toEqual([[1, 3.5]]);
    expect(spans(three.slice(1))).toEqual([]);
    expect(spans([...three.slice(1), label("hidden", 4, 5)])).toEqual([]);
  });

  it("D36: a pause of more than four seconds parts two rows", () => {
    const row = [label("inked", 0, 1), label("inked", 1, 2), label("inked", 2, 3)];
    const later = (bySec: number) => row.map((_, i) => label("inked", i + bySec, i + bySec + 1));
    expect(spans([...row, ...later(7)])).toEqual([[0, 10]]);
    expect(spans([...row, ...later(7.1)])).toEqual([
      [0, 3],
      [7.1, 10.1],
    ]);
    // One that sounds on for long leaves no pause.
    expect(spans([label("inked", 0.5, 6), ...row, ...later(7.1)])).toEqual([[0, 10.1]]);
  });

  it("D36: an open note ends a row 50 ms before it, and takes those that begin with it out", () => {
    const row = [0, 1, 2, 3, 4, 5].map((sec) => label("inked", sec, sec + 0.9));
    expect(spans([...row, label("open", 2.5, 3)])).toEqual([
      [0, 2.45],
      [3, 5.9],
    ]);
    expect(spans([...row, label("open", 3.04, 4)])).toEqual([[0, 2.9]]);
    expect(spans([...row, label("open", 2.96, 4)])).toEqual([[0, 2.9]]);
  });

  it("D36: is read of a song with what people did in it", () => {
    const ann = replica("ann", 1);
    hear(ann, hearing({ notes: [0, 1, 2, 3, 4].map((sec) => heardNote(sec, 60 + sec)) }));
    const idOf = (startSec: number) => readSong(ann.doc).notes.find((note) => note.startSec === startSec)!.id;
    done(inkNotes(ann.ctx, [idOf(0), idOf(1)]));
    expect(readLabels(ann.doc, null).notesGoneOver).toEqual([]);
    done(rubOutNote(ann.ctx, idOf(2)));
    expect(readLabels(ann.doc, null).notesGoneOver).toEqual([{ startSec: 0, endSec: 2.95 }]);
    done(addNote(ann.ctx, { startSec: 3.01, endSec: 3.5, midi: 63, glides: [] }));
    expect(readLabels(ann.doc, null).notesGoneOver).toEqual([{ startSec: 0, endSec: 3.5 }]);
  });

  const ACTS = ["open", "hidden", "inked", "corrected", "rubbedOut", "added"] as const;
  const labels = fc.array(
    fc.record({ act: fc.constantFrom(...ACTS), at: fc.nat({ max: 600 }), long: fc.nat({ max: 60 }) }),
    { maxLength: 40 },
  );

  it("D36: the rule said over again, in another way", () => {
    let found = 0;
    fc.assert(
      fc.property(labels, (drawn) => {
        const all = drawn.map(({ act, at, long }) => label(act, at / 25, at / 25 + 0.02 + long / 25));
        const place = (each: Label<"note">) => each.proposed?.values ?? each.settled!;
        const open = all.filter(({ act }) => act === "open").map((each) => place(each).startSec);
        const settled = all
          .filter(({ act }) => act !== "open" && act !== "hidden")
          .map(place)
          .filter(({ startSec }) => open.every((sec) => Math.abs(sec - startSec) > 0.05))
          .sort((a, b) => a.startSec - b.startSec);
        // Of any two that follow each other, whether a row goes on from the one to the other.
        const rows: (typeof settled)[] = [];
        for (const note of settled) {
          const row = rows.at(-1);
          const before = row?.at(-1);
          const soundedSec = row && Math.max(...row.map(({ endSec }) => endSec));
          const goesOn =
            before !== undefined &&
            note.startSec - soundedSec! <= 4 &&
            !open.some((sec) => before.startSec <= sec && sec <= note.startSec);
          if (goesOn) row!.push(note);
          else rows.push([note]);
        }
        const expected = rows
          .filter((row) => row.length >= 3)
          .map((row) => {
            const nextSec = Math.min(
              ...open.filter((sec) => sec > row[0]!.startSec),
              Number.POSITIVE_INFINITY,
            );
            return [row[0]!.startSec, Math.min(Math.max(...row.map(({ endSec }) => endSec)), nextSec - 0.05)];
          });
        expect(spans(all)).toEqual(expected);
        found += expected.length;
      }),
      { numRuns: 500 },
    );
    expect(found).toBeGreaterThan(100);
  });
});
