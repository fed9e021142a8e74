import { describe, expect, it, vi } from "vitest";
import { setCovers } from "@/lib/document/commands/covers";
import { setPartCopedent } from "@/lib/document/commands/head";
import {
  addPartEvent,
  addPartEvents,
  editPartEvent,
  inkPartEvents,
  type PartEventFields,
} from "@/lib/document/commands/part";
import { copyPartEvents, editPartEvents, rubOutPartEvents } from "@/lib/document/commands/partMany";
import { addPart, namePart, type PartFields, takePartAway } from "@/lib/document/commands/parts";
import { restore } from "@/lib/document/commands/restore";
import { keepFromCovers } from "@/lib/document/commands/underCovers";
import { coverSong } from "@/lib/document/read/coverSong";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import { watchSong } from "@/lib/document/read/watchSong";
import { WHOLE_SONG } from "@/lib/document/records/covers";
import { E9 } from "@/lib/instrument/copedents/e9";
import { done, meet, type Replica, registers, replica } from "./replicas";

/** Four strings in fifths, as a mandolin or a fiddle has them (common practice). */
const MANDOLIN = { name: "Mandolin", strings: [76, 69, 62, 55] };
const FIDDLE: PartFields = {
  name: "Fiddle",
  from: { kind: "own", id: "fifths", ownerId: "ann" },
  chart: MANDOLIN,
};
const event = (changed: Partial<PartEventFields> = {}): PartEventFields => ({
  ...{ startSec: 1, endSec: 2, strings: [1], fret: 3, changes: [], articulation: "pick" },
  ...changed,
});
const partsOf = (on: Replica) =>
  readSong(on.doc).parts.map(({ id, name, events }) => [id, name, events.length]);
const pair = () => [replica("ann", 1), replica("ben", 2)] as const;
/** With a fiddle beside the first part; gives its id. */
function withFiddle(on: Replica): string {
  return done(addPart(on.ctx, FIDDLE))[0]!;
}

describe("several parts", () => {
  it("D52: a song has its first part, and is given others, each on a copedent of its own", () => {
    const ann = replica("ann", 1);
    expect(partsOf(ann)).toEqual([["part", "", 0]]);
    const fiddle = withFiddle(ann);
    const [, added] = readSong(ann.doc).parts;
    expect(added).toMatchObject({ id: fiddle, name: "Fiddle", madeBy: "ann", events: [] });
    expect(added!.head).toMatchObject({ from: FIDDLE.from, chosenBy: "ann", copedent: { name: "Mandolin" } });
    expect(readSong(ann.doc).head.copedent).toBe(E9);
  });

  it("D52: events go into the part they are told, one sounds on a string within each, and edits leave them there", () => {
    const ann = replica("ann", 1);
    const fiddle = withFiddle(ann);
    const [steel] = done(addPartEvent(ann.ctx, event({ endSec: 9 })));
    const [bowed] = done(addPartEvents(ann.ctx, [event({ startSec: 2, endSec: 3 })], "pencil", [], fiddle));
    done(copyPartEvents(ann.ctx, [{ event: event({ startSec: 4, endSec: 5 }), mark: "ink" }], fiddle));
    const read = () =>
      readSong(ann.doc).parts.map(({ events }) =>
        events.map(({ id, startSec, endSec }) => [id, startSec, endSec]),
      );
    expect(read()).toEqual([
      [[steel, 1, 9]],
      [
        [bowed, 2, 3],
        [expect.any(String), 4, 5],
      ],
    ]);
    done(editPartEvents(ann.ctx, new Map([[bowed!, { fret: 5 }]])));
    done(editPartEvent(ann.ctx, readSong(ann.doc).parts[1]!.events[0]!.id, { fret: 7 }));
    expect(readSong(ann.doc).parts[1]!.events).toMatchObject([
      { part: fiddle, fret: 7, mark: "ink" },
      { part: fiddle, fret: 3 },
    ]);
  });

  it("D52: an act on one part takes nothing away from another, even where it is told its events", () => {
    const ann = replica("ann", 1);
    const fiddle = withFiddle(ann);
    const [steel] = done(addPartEvent(ann.ctx, event()));
    const [bowed] = done(addPartEvent(ann.ctx, event(), "pencil", fiddle));
    const before = registers(ann.doc);
    const refused = { ok: false, reason: "otherPart" };
    expect(addPartEvents(ann.ctx, [event({ startSec: 3, endSec: 4 })], "ink", [bowed!])).toMatchObject(
      refused,
    );
    expect(editPartEvent(ann.ctx, steel!, { strings: [1, 2] }, [bowed!])).toMatchObject(refused);
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D52: what older readers read, the map of the first part and its head, holds nothing of another part", () => {
    const ann = replica("ann", 1);
    done(addPartEvent(ann.ctx, event()));
    const before = { ...registers(ann.doc) };
    const fiddle = withFiddle(ann);
    const [bowed] = done(addPartEvent(ann.ctx, event({ startSec: 3, endSec: 4 }), "pencil", fiddle));
    done(inkPartEvents(ann.ctx, [bowed!]));
    done(rubOutPartEvents(ann.ctx, [bowed!]));
    done(restore(ann.ctx, "part", bowed!));
    const known = /^part\/|^head\/part\.|^song\//;
    const of = (all: Record<string, unknown>) => Object.entries(all).filter(([key]) => known.test(key));
    expect(of(registers(ann.doc))).toEqual(of(before));
    expect(ann.doc.getMap("song").get("schema")).toBe(3);
  });

  it("D52: an event of an older version, which names no part, is the first's", () => {
    const ann = replica("ann", 1);
    withFiddle(ann);
    const values = { ...event(), frets: null };
    ann.doc.getMap("part").set("old.pencil", { by: "ann", atMs: 1, confidence: null, values });
    expect(readSong(ann.doc).part).toMatchObject([{ id: "old", part: "part" }]);
  });

  it("D52: covers of places lie over all parts", () => {
    const ann = replica("ann", 1);
    const fiddle = withFiddle(ann);
    done(addPartEvent(ann.ctx, event()));
    done(addPartEvent(ann.ctx, event(), "ink", fiddle));
    done(setCovers(ann.ctx, { target: WHOLE_SONG, lanes: ["places"] }, "students", true));
    const seen = coverSong(readSong(ann.doc), { id: "ben", isStudent: true }).song;
    expect(seen.parts.map(({ id, events }) => [id, events.length])).toEqual([
      ["part", 0],
      [fiddle, 0],
    ]);
    expect(readSong(ann.doc).parts.map(({ events }) => events.length)).toEqual([1, 1]);
  });

  it("D58: under a cover no other part is written unseen, put on another copedent or taken away", () => {
    const ann = replica("ann", 1);
    const fiddle = withFiddle(ann);
    const [bowed] = done(addPartEvent(ann.ctx, event(), "ink", fiddle));
    done(setCovers(ann.ctx, { target: WHOLE_SONG, lanes: ["places"] }, "students", true));
    const ben = { ...ann.ctx, by: "ben", watch: keepFromCovers(ann.doc, { id: "ben", isStudent: true }) };
    const before = registers(ann.doc);
    const unseen = { ok: false, reason: "underCover" };
    expect(addPartEvent(ben, event({ startSec: 4, endSec: 5 }), "ink", fiddle)).toMatchObject(unseen);
    expect(editPartEvent(ben, bowed!, { fret: 5 })).toMatchObject(unseen);
    expect(setPartCopedent(ben, FIDDLE, new Map(), fiddle)).toMatchObject(unseen);
    expect(takePartAway(ben, fiddle)).toMatchObject(unseen);
    expect(registers(ann.doc)).toEqual(before);
    done(setPartCopedent(ben, FIDDLE));
  });

  it("D38: each part gets its copedent by itself, and carries over its own events alone", () => {
    const ann = replica("ann", 1);
    const fiddle = withFiddle(ann);
    const [steel] = done(addPartEvent(ann.ctx, event()));
    const [bowed] = done(addPartEvent(ann.ctx, event(), "ink", fiddle));
    const place = { strings: [2], fret: 5, frets: null, changes: [] };
    const lap = {
      from: { kind: "own", id: "lap", ownerId: "ann" },
      chart: { strings: [64, 60, 57, 55, 52, 48] },
    } as const;
    const guitar = { ...lap, chart: { strings: [...lap.chart.strings] } };
    expect(setPartCopedent(ann.ctx, guitar, new Map([[steel!, place]]), fiddle)).toMatchObject({
      reason: "otherPart",
    });
    done(setPartCopedent(ann.ctx, guitar, new Map([[bowed!, place]]), fiddle));
    const { parts } = readSong(ann.doc);
    expect(parts.map(({ head }) => head.from.id)).toEqual(["e9", "lap"]);
    expect(parts.map(({ events }) => events[0]!.strings)).toEqual([[1], [2]]);
  });

  it("D19: watching tells of parts, and leaves all else the very same", () => {
    const ann = replica("ann", 1);
    const fiddle = withFiddle(ann);
    done(addPartEvent(ann.ctx, event()));
    done(addPartEvent(ann.ctx, event(), "ink", fiddle));
    const seen: SongSnapshot[] = [];
    const onChange = vi.fn((song: SongSnapshot) => seen.push(song));
    watchSong(ann.doc, onChange);
    done(addPartEvent(ann.ctx, event({ startSec: 5, endSec: 6 }), "ink", fiddle));
    done(namePart(ann.ctx, fiddle, "Mandolin"));
    const third = done(addPart(ann.ctx, { ...FIDDLE, name: "" }))[0];
    expect(onChange).toHaveBeenCalledTimes(4);
    const [start, written, named, more] = seen as [SongSnapshot, SongSnapshot, SongSnapshot, SongSnapshot];
    expect(written.parts[0]).toBe(start.parts[0]);
    expect(written.part).toBe(start.part);
    expect(written.parts[1]!.events[0]).toBe(start.parts[1]!.events[0]);
    expect(written.parts[1]!.head).toBe(start.parts[1]!.head);
    expect(named.parts[1]!.events).toBe(written.parts[1]!.events);
    expect(more.parts.slice(0, 2)).toEqual(named.parts);
    for (const at of [0, 1]) expect(more.parts[at]).toBe(named.parts[at]);
    expect(more.parts[2]!.id).toBe(third);
  });
});

describe("names and order of parts", () => {
  it("D53: the first, then by when they were made, then by id; those of which nothing is known last", () => {
    const ann = replica("ann", 1);
    const at = (nowMs: number, id: string) => addPart({ ...ann.ctx, nowMs, newId: () => id }, FIDDLE);
    done(at(30, "late"));
    done(at(20, "b"));
    done(at(20, "a"));
    const values = { ...event(), frets: null, part: "unknown" };
    ann.doc.getMap("otherEvent").set("x.pencil", { by: "ann", atMs: 1, confidence: null, values });
    expect(readSong(ann.doc).parts.map(({ id }) => id)).toEqual(["part", "a", "b", "late", "unknown"]);
    expect(readSong(ann.doc).parts[4]).toMatchObject({ name: "", madeAtMs: null, head: { copedent: E9 } });
  });

  it("D53: the first too is named; undo brings the name before it back, the one it was made with at last", () => {
    const ann = replica("ann", 1);
    const fiddle = withFiddle(ann);
    done(namePart(ann.ctx, "part", " Pedal steel "));
    done(namePart(ann.ctx, fiddle, "Second fiddle"));
    done(namePart(ann.ctx, fiddle, ""));
    const names = () => readSong(ann.doc).parts.map(({ name }) => name);
    expect(names()).toEqual(["Pedal steel", ""]);
    ann.undo.undo();
    expect(names()).toEqual(["Pedal steel", "Second fiddle"]);
    ann.undo.undo();
    expect(names()).toEqual(["Pedal steel", "Fiddle"]);
  });

  it.each([
    ["a name of 41 signs", (ann: Replica) => namePart(ann.ctx, "part", "x".repeat(41)), "badPartName"],
    ["no name at all", (ann: Replica) => addPart(ann.ctx, { ...FIDDLE, name: 7 as never }), "badPartName"],
    ["no chart", (ann: Replica) => addPart(ann.ctx, { ...FIDDLE, chart: { strings: [] } }), "badCopedent"],
    ["an id with a dot", (ann: Replica) => addPart({ ...ann.ctx, newId: () => "a.b" }, FIDDLE), "badId"],
    ["the first part's id", (ann: Replica) => addPart({ ...ann.ctx, newId: () => "part" }, FIDDLE), "badId"],
    ["naming what is not there", (ann: Replica) => namePart(ann.ctx, "nobody", "Bass"), "unknownPart"],
    [
      "an event into what is not there",
      (ann: Replica) => addPartEvent(ann.ctx, event(), "ink", "x"),
      "unknownPart",
    ],
    ["taking the first away", (ann: Replica) => takePartAway(ann.ctx, "part"), "firstPart"],
    ["taking away what is not there", (ann: Replica) => takePartAway(ann.ctx, "nobody"), "unknownPart"],
  ])("D17: %s is refused, and nothing is written", (_, act, reason) => {
    const ann = replica("ann", 1);
    withFiddle(ann);
    const before = registers(ann.doc);
    expect(act(ann)).toMatchObject({ ok: false, reason });
    expect(registers(ann.doc)).toEqual(before);
  });
});

describe("taking a part away", () => {
  it("D54: rubs out what is written in it, in one act that undo takes back as one step", () => {
    const [ann, ben] = pair();
    const fiddle = withFiddle(ann);
    done(addPartEvent(ann.ctx, event()));
    const events = [event(), event({ startSec: 3, endSec: 4 })];
    const ids = done(addPartEvents(ann.ctx, events, "ink", [], fiddle));
    meet(ann, ben);
    const before = readSong(ben.doc);
    done(takePartAway(ben.ctx, fiddle));
    meet(ann, ben);
    for (const each of [ann, ben]) expect(partsOf(each)).toEqual([["part", "", 1]]);
    const gone = readRubbedOut(ann.doc, "part").map(({ record }) => record);
    expect(gone.map(({ id }) => id).sort()).toEqual([...ids].sort());
    expect(gone.map(({ part }) => part)).toEqual([fiddle, fiddle]);
    ben.undo.undo();
    expect(readSong(ben.doc)).toEqual(before);
    ben.undo.redo();
    expect(partsOf(ben)).toHaveLength(1);
  });

  it("D54: ink that no rubber saw, and an event that another writes meanwhile, show it again", () => {
    const [ann, ben] = pair();
    const fiddle = withFiddle(ann);
    const [guess] = done(addPartEvents(ann.ctx, [event()], "pencil", [], fiddle));
    done(addPartEvent(ann.ctx, event({ startSec: 6, endSec: 7 }), "ink", fiddle));
    meet(ann, ben);
    done(takePartAway(ann.ctx, fiddle));
    done(inkPartEvents(ben.ctx, [guess!]));
    done(addPartEvent(ben.ctx, event({ startSec: 3, endSec: 4 }), "ink", fiddle));
    meet(ann, ben);
    for (const each of [ann, ben])
      expect(partsOf(each)).toEqual([
        ["part", "", 0],
        [fiddle, "Fiddle", 2],
      ]);
    expect(readSong(ann.doc).parts[1]!.head.copedent.name).toBe("Mandolin");
  });

  it("D54: an event that is put back shows it again; with the last it goes, and takes no more", () => {
    const ann = replica("ann", 1);
    const fiddle = withFiddle(ann);
    const [id] = done(addPartEvent(ann.ctx, event(), "ink", fiddle));
    done(takePartAway(ann.ctx, fiddle));
    expect(addPartEvent(ann.ctx, event(), "ink", fiddle)).toMatchObject({ reason: "unknownPart" });
    done(restore(ann.ctx, "part", id!));
    expect(partsOf(ann)[1]).toEqual([fiddle, "Fiddle", 1]);
    done(addPartEvent(ann.ctx, event({ startSec: 4, endSec: 5 }), "ink", fiddle));
    expect(partsOf(ann)[1]).toEqual([fiddle, "Fiddle", 2]);
    done(takePartAway(ann.ctx, fiddle));
    expect(partsOf(ann)).toHaveLength(1);
  });

  it("D54: of one who takes it away and one who puts it back by undo at once, all copies agree", () => {
    const [ann, ben] = pair();
    const fiddle = withFiddle(ann);
    meet(ann, ben);
    done(takePartAway(ann.ctx, fiddle));
    meet(ann, ben);
    ann.undo.undo();
    done(namePart(ben.ctx, "part", "Steel"));
    meet(ann, ben);
    expect(readSong(ann.doc)).toEqual(readSong(ben.doc));
    expect(partsOf(ann)).toHaveLength(2);
  });

  it("D55: undo of having made it takes an empty part away, and redo brings it back as it was", () => {
    const ann = replica("ann", 1);
    withFiddle(ann);
    const made = readSong(ann.doc);
    ann.undo.undo();
    expect(partsOf(ann)).toHaveLength(1);
    ann.undo.redo();
    expect(readSong(ann.doc)).toEqual(made);
  });

  it("D55: what another wrote in it stays, on the copedent it was written for, when its maker takes back having made it", () => {
    const [ann, ben] = pair();
    const fiddle = withFiddle(ann);
    meet(ann, ben);
    done(addPartEvent(ben.ctx, event(), "ink", fiddle));
    meet(ann, ben);
    ann.undo.undo();
    meet(ann, ben);
    for (const each of [ann, ben]) {
      expect(partsOf(each)[1]).toEqual([fiddle, "Fiddle", 1]);
      expect(readSong(each.doc).parts[1]!.head.copedent.name).toBe("Mandolin");
    }
  });
});
