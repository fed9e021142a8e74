import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { addChange, inkChange, setChangeLabel } from "@/lib/document/commands/changes";
import { addPartEvent } from "@/lib/document/commands/part";
import { takePartAway } from "@/lib/document/commands/parts";
import { setGrid } from "@/lib/document/commands/whole";
import { coverSong } from "@/lib/document/read/coverSong";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import { RECORD_KINDS, splitKey } from "@/lib/document/records/storage";
import { E9 } from "@/lib/instrument/copedents/e9";
import { done, hear, hearing, registers, replica } from "./replicas";
import { expectValid } from "./validSong";

describe("storage", () => {
  it("D2: every register lies flat under a record's id in the map of its kind", () => {
    const ann = replica("ann", 1);
    hear(ann);
    done(setChangeLabel(ann.ctx, readSong(ann.doc).changes[0]!.id, "A:min"));
    done(
      addPartEvent(ann.ctx, {
        startSec: 0,
        endSec: 1,
        strings: [5],
        fret: 3,
        changes: [],
        articulation: "pick",
      }),
    );
    const keys = Object.keys(registers(ann.doc)).filter((key) => !key.startsWith("song/"));
    expect(keys.length).toBeGreaterThan(8);
    for (const key of keys)
      expect(key).toMatch(/^(tuning|grid|home|change|bass|section|note|part|study)\/[^.]+\.[a-zA-Z.]+$/);
    expect(JSON.parse(JSON.stringify(registers(ann.doc)))).toEqual(registers(ann.doc));
  });

  it("D2: a key is the record's id, a dot, and the register's name, which may hold dots", () => {
    expect(splitKey("m1.ink.a.b")).toEqual({ recordId: "m1", register: "ink.a.b" });
    expect([splitKey("nodot"), splitKey(".label")]).toEqual([null, null]);
  });

  it("D2: what a caller does with its own arrays later changes nothing in the document", () => {
    const ann = replica("ann", 1);
    const beats = { beatsSec: [0, 1], inBar: [1, 2], beatsPerBar: 2 };
    done(setGrid(ann.ctx, beats));
    beats.beatsSec[0] = 99;
    expect(readSong(ann.doc).grid!.beatsSec).toEqual([0, 1]);
  });

  it("D4: an empty document is a song with nothing in it", () => {
    const song = readSong(new Y.Doc());
    const head = { copedent: E9, from: { kind: "preset", id: "e9" }, chosenBy: null, chosenAtMs: null };
    expect(song).toEqual({
      tuning: null,
      grid: null,
      homes: [],
      changes: [],
      bass: [],
      sections: [],
      notes: [],
      bandNotes: [],
      parts: [{ id: "part", name: "", head, madeBy: null, madeAtMs: null, events: [] }],
      head,
      part: [],
      studies: [],
      covers: [],
      looks: [],
      guesses: [],
      questions: [],
      covered: {
        tuning: [],
        grid: [],
        home: [],
        change: [],
        bass: [],
        section: [],
        note: [],
        part: [],
        study: [],
      },
      heard: null,
      passages: [],
      readOnlyBecause: null,
    });
  });
});

describe("what cannot be read", () => {
  it("D5: an edited field of another type falls back to the value beneath, and stays in the document", () => {
    const ann = replica("ann", 1);
    hear(ann);
    const { id } = readSong(ann.doc).changes[0]!;
    done(inkChange(ann.ctx, id));
    ann.doc.getMap("change").set(`${id}.label`, { newer: "label" });
    ann.doc.getMap("change").set(`${id}.endSec`, Number.NaN);
    ann.doc.getMap("change").set(`${id}.colour`, "of a newer version");
    expect(readSong(ann.doc).changes[0]).toMatchObject({ id, label: "G:maj", startSec: 0, endSec: 2 });
    expect(registers(ann.doc)).toMatchObject({ [`change/${id}.label`]: { newer: "label" } });
  });

  it("D5: ink whose values cannot be read is ink all the same", () => {
    const ann = replica("ann", 1);
    hear(ann);
    const { id } = readSong(ann.doc).changes[0]!;
    const ink = { stamp: "s", atMs: 5, madeBy: "ben", madeAtMs: 5, values: { label: 7 } };
    ann.doc.getMap("change").set(`${id}.ink.ben`, ink);
    expect(readSong(ann.doc).changes[0]).toMatchObject({ id, label: "G:maj", mark: "ink", editedBy: "ben" });
  });

  it("D5: a record with no readable values is not shown, and the rest is", () => {
    const ann = replica("ann", 1);
    hear(ann);
    ann.doc
      .getMap("change")
      .set("x.pencil", { by: "ann", atMs: 1, confidence: null, values: { startSec: 1 } });
    ann.doc.getMap("change").set("y.ink.ann", "ink");
    ann.doc.getMap("change").set("z.label", "G:maj");
    ann.doc.getMap("change").set("nodot", 5);
    expect(readSong(ann.doc).changes).toHaveLength(4);
  });

  it("D5: any rubbish in any register leaves a valid song and no error", () => {
    const register = fc.constantFrom(
      ...[
        "pencil",
        "ink.ann",
        "ink.",
        "rub.ann",
        "startSec",
        "endSec",
        "label",
        "key",
        "beats",
        "strings",
        "fret",
        "midi",
        "glides",
        "transposedSemitones",
        "sheet",
        "stands",
        "name",
        "copedent",
        "part",
        "students.home",
        "self.changes.ann",
        "looked.home.ann",
        "made.ann",
        "told.ann",
      ],
    );
    // Yjs takes plain objects only.
    const plain = { noNullPrototype: true };
    const jsonValue = fc.jsonValue();
    const stretch = {
      startSec: fc.double(),
      endSec: fc.double(),
      label: fc.constantFrom("G:maj", "?"),
      midi: fc.oneof(fc.integer({ min: 30, max: 60 }), fc.double()),
      transposedSemitones: fc.integer({ min: -9, max: 9 }),
      glides: fc.oneof(
        jsonValue,
        fc.array(
          fc.record(
            {
              kind: fc.constantFrom("bar", "hand"),
              toMidi: fc.double({ min: 0, max: 140 }),
              atSec: fc.double({ min: 0, max: 9 }),
              durationSec: fc.double(),
            },
            plain,
          ),
        ),
      ),
    };
    const event = {
      startSec: fc.double({ min: 0, max: 9 }),
      endSec: fc.double({ min: 0, max: 9 }),
      part: fc.constantFrom("part", "a", "b", "__proto__", 7, "a.b"),
      strings: fc.constantFrom([1], [1, 2], "1"),
      fret: fc.integer({ min: 0, max: 5 }),
      changes: fc.constant([]),
      articulation: fc.constantFrom("pick", "bow"),
    };
    const aside = fc.record(
      {
        nextBest: fc.oneof(
          jsonValue,
          fc.array(fc.record({ label: fc.string(), confidence: fc.double() }, plain)),
        ),
        beatsConfidence: fc.double(),
        barsConfidence: fc.double({ min: 0, max: 1 }),
        steel: fc.double(),
      },
      plain,
    );
    const nearly = fc.record(
      {
        by: fc.constantFrom("machine", "ann"),
        stamp: fc.string(),
        atMs: fc.double(),
        madeBy: fc.string(),
        madeAtMs: fc.double(),
        seen: fc.array(fc.string()),
        confidence: fc.double(),
        values: fc.oneof(fc.record(stretch, plain), fc.record(event, plain), jsonValue),
        isThere: fc.boolean(),
        name: fc.oneof(fc.string(), jsonValue),
        aside: fc.oneof(aside, jsonValue),
      },
      plain,
    );
    const sheet = fc.record(
      {
        by: fc.constant("ann"),
        atMs: fc.double(),
        startSec: fc.double({ min: -1, max: 5 }),
        endSec: fc.double({ min: 0, max: 9 }),
        version: fc.string(),
        overRunId: fc.constantFrom("run 1", null),
        notes: fc.oneof(
          jsonValue,
          fc.array(
            fc.record(
              {
                id: fc.constantFrom("a", "b", "__proto__"),
                by: fc.constantFrom("machine", "ann"),
                atMs: fc.integer(),
                confidence: fc.double(),
                values: fc.record(
                  {
                    ...stretch,
                    startSec: fc.double({ min: 0, max: 9 }),
                    endSec: fc.double({ min: 0, max: 9 }),
                  },
                  plain,
                ),
                aside: fc.oneof(aside, jsonValue),
              },
              plain,
            ),
          ),
        ),
      },
      plain,
    );
    const value = fc.oneof(nearly, sheet, jsonValue, fc.double(), fc.constant("__proto__"));
    const entry = fc.record({
      map: fc.constantFrom(
        "song",
        "passage",
        "head",
        "begun",
        "otherEvent",
        "cover",
        "guess",
        ...RECORD_KINDS,
      ),
      id: fc.constantFrom("a", "b", "__proto__", "constructor"),
      register,
      value,
    });
    fc.assert(
      fc.property(fc.array(entry, { maxLength: 30 }), (entries) => {
        const ann = replica("ann", 1);
        hear(ann);
        for (const { map, id, register: name, value: each } of entries) {
          ann.doc.getMap(map).set(map === "song" ? "heard" : `${id}.${name}`, each);
        }
        expectValid(readSong(ann.doc));
        expectValid(coverSong(readSong(ann.doc), { id: "ann", isStudent: true }).song);
        for (const kind of RECORD_KINDS) readRubbedOut(ann.doc, kind);
        const added = addChange(ann.ctx, { startSec: 1, endSec: 2, label: "G:maj" });
        expect(added.ok).toBe(true);
        for (const { id } of readSong(ann.doc).parts.slice(1)) done(takePartAway(ann.ctx, id));
        expect(readSong(ann.doc).parts).toHaveLength(1);
      }),
      { numRuns: 300 },
    );
  }, 60_000);
});

describe("versions", () => {
  it("D18: the first command writes schema 3, which undo does not take back", () => {
    const ann = replica("ann", 1);
    done(addChange(ann.ctx, { startSec: 0, endSec: 1, label: "G" }));
    ann.undo.undo();
    expect(ann.doc.getMap("song").get("schema")).toBe(3);
  });

  it.each([undefined, 1, 2])(
    "D18: with schema %j reads all, and the first command brings it up",
    (schema) => {
      const ann = replica("ann", 1);
      hear(ann);
      const song = readSong(ann.doc);
      if (schema === undefined) ann.doc.getMap("song").delete("schema");
      else ann.doc.getMap("song").set("schema", schema);
      expect(readSong(ann.doc)).toEqual(song);
      expect(song.readOnlyBecause).toBeNull();
      done(addChange(ann.ctx, { startSec: 0, endSec: 1, label: "G" }));
      expect(ann.doc.getMap("song").get("schema")).toBe(3);
    },
  );

  it.each([4, "1", null, Number.NaN])(
    "D18: with schema %j reads what it can, says so, and writes nothing",
    (schema) => {
      const ann = replica("ann", 1);
      hear(ann);
      done(addChange(ann.ctx, { startSec: 8, endSec: 9, label: "G" }));
      ann.doc.getMap("song").set("schema", schema);
      const before = registers(ann.doc);
      const song = readSong(ann.doc);
      expect(song.readOnlyBecause).toBe("newerVersion");
      expect(song.changes).toHaveLength(5);
      expect(addChange(ann.ctx, { startSec: 1, endSec: 2, label: "G" })).toMatchObject({
        reason: "newerVersion",
      });
      expect(hear(ann, hearing(), "run 2")).toMatchObject({ reason: "newerVersion" });
      expect([ann.undo.canUndo(), ann.undo.undo(), ann.undo.redo()]).toEqual([false, false, false]);
      expect(registers(ann.doc)).toEqual(before);
    },
  );
});
