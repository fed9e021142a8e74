import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addPartEvent } from "@/lib/document/commands/part";
import { countThrough, keepCheck, keepListening } from "@/lib/document/commands/practice";
import { restore } from "@/lib/document/commands/restore";
import { addStudies, editStudy, rubOutStudy } from "@/lib/document/commands/studies";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import type { ShownStudy } from "@/lib/document/read/SongSnapshot";
import { LISTENING_AT_FIRST } from "@/lib/document/records/ListeningSettings";
import { done, hear, meet, type Replica, registers, replica, send } from "./replicas";
import { expectValid } from "./validSong";

const once = { times: 1, fullSpeedTimes: 0 };

function studiesOf(on: Replica): ShownStudy[] {
  return readSong(on.doc).studies;
}
function add(on: Replica, startSec: number, endSec: number, name = ""): string {
  return done(addStudies(on.ctx, [{ startSec, endSec, name }]))[0]!;
}
function at(speed: number, isLooped: boolean) {
  return { isLooped, settings: { ...LISTENING_AT_FIRST, speed } };
}

describe("studies", () => {
  it("D40: they overlap freely, are numbered in order of start then id, and stand in ink", () => {
    const ann = replica("ann", 1);
    hear(ann);
    const [verse, intro] = done(
      addStudies(ann.ctx, [
        { startSec: 2, endSec: 6, name: " Verse " },
        { startSec: 0, endSec: 3, name: "Intro" },
      ]),
    );
    const again = add(ann, 2, 6);
    const shown = studiesOf(ann);
    expect(shown.map(({ number, id }) => [number, id])).toEqual([
      [1, intro],
      [2, verse],
      [3, again],
    ]);
    expect(shown[1]).toMatchObject({ startSec: 2, endSec: 6, name: "Verse", mark: "ink", madeBy: "ann" });
    expect(shown.map(({ name }) => name)).toEqual(["Intro", "Verse", ""]);
    done(rubOutStudy(ann.ctx, intro!));
    expect(studiesOf(ann).map(({ number, id }) => [number, id])).toEqual([
      [1, verse],
      [2, again],
    ]);
    expectValid(readSong(ann.doc));
  });

  it("D40: the order is the same whatever order they came in", () => {
    const stretch = fc.record({ startSec: fc.constantFrom(0, 1, 1, 2), endSec: fc.constantFrom(3, 4) });
    fc.assert(
      fc.property(fc.array(stretch, { maxLength: 6 }), fc.array(fc.boolean()), (stretches, byBen) => {
        const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
        stretches.forEach(({ startSec, endSec }, index) => {
          add(byBen[index] ? ben : ann, startSec, endSec);
        });
        meet(ann, ben);
        expect(studiesOf(ann)).toEqual(studiesOf(ben));
        expect(studiesOf(ann)).toHaveLength(stretches.length);
        expectValid(readSong(ann.doc));
      }),
      { numRuns: 60 },
    );
  });

  it("D3: a name and an end that two people write at once both stand", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const id = add(ann, 0, 4, "A");
    meet(ann, ben);
    done(editStudy(ann.ctx, id, { name: "Turnaround" }));
    done(editStudy(ben.ctx, id, { endSec: 5 }));
    meet(ann, ben);
    for (const on of [ann, ben])
      expect(studiesOf(on)[0]).toMatchObject({ name: "Turnaround", startSec: 0, endSec: 5 });
  });

  it("D4: ends that two people moved past each other are read in order", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const id = add(ann, 2, 4);
    meet(ann, ben);
    done(editStudy(ann.ctx, id, { startSec: 3.5 }));
    done(editStudy(ben.ctx, id, { endSec: 3 }));
    meet(ann, ben);
    for (const on of [ann, ben]) expect(studiesOf(on)[0]).toMatchObject({ startSec: 3, endSec: 3.5 });
  });

  it("D17: what is no study is refused with the reason, and nothing is written", () => {
    const ann = replica("ann", 1);
    const id = add(ann, 0, 4);
    const before = registers(ann.doc);
    const good = { startSec: 0, endSec: 2, name: "" };
    const refused = [
      addStudies(ann.ctx, [good, { ...good, endSec: 0.01 }]),
      addStudies(ann.ctx, [{ ...good, startSec: Number.NaN }]),
      addStudies(ann.ctx, [{ ...good, name: "x".repeat(41) }]),
      editStudy(ann.ctx, id, { startSec: 4 }),
      editStudy(ann.ctx, "nobody", { name: "B" }),
      countThrough(ann.ctx, id, "d", { times: 0, fullSpeedTimes: 0 }),
      countThrough(ann.ctx, id, "d", { times: 1, fullSpeedTimes: 2 }),
      countThrough(ann.ctx, id, "d", { times: 1.5, fullSpeedTimes: 0 }),
      countThrough(ann.ctx, id, "a.device", once),
      keepListening(ann.ctx, "nobody", at(0.5, true)),
      keepCheck(ann.ctx, id, { e1: "" }),
    ];
    expect(refused.map((each) => !each.ok && each.reason)).toEqual([
      "tooShort",
      "badTime",
      "badPassageName",
      "tooShort",
      "unknownRecord",
      "badCount",
      "badCount",
      "badCount",
      "badId",
      "unknownRecord",
      "badCheck",
    ]);
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D8: hearing the song again leaves studies alone", () => {
    const ann = replica("ann", 1);
    add(ann, 0, 4, "Intro");
    const before = studiesOf(ann);
    hear(ann, undefined, "run 2");
    expect(studiesOf(ann)).toEqual(before);
  });
});

describe("what people did with a study", () => {
  it("D41: times through add up by person over devices that counted at once", () => {
    const [ann, phone, ben] = [replica("ann", 1), replica("ann", 2, "phone"), replica("ben", 3)];
    const id = add(ann, 0, 4);
    meet(ann, phone, ben);
    done(countThrough(ann.ctx, id, "desk", { times: 3, fullSpeedTimes: 1 }));
    done(countThrough(phone.ctx, id, "phone", { times: 2, fullSpeedTimes: 2 }));
    done(countThrough(ben.ctx, id, "desk", once));
    done(countThrough(ann.ctx, id, "desk", once));
    meet(ann, phone, ben);
    for (const on of [ann, phone, ben]) {
      expect(studiesOf(on)[0]!.through).toEqual([
        expect.objectContaining({ by: "ann", times: 6, fullSpeedTimes: 3 }),
        expect.objectContaining({ by: "ben", times: 1, fullSpeedTimes: 0 }),
      ]);
    }
  });

  it("D41: counting is no edit, and undo leaves it", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const id = add(ann, 0, 4);
    send(ann, ben);
    const before = studiesOf(ben)[0]!;
    done(countThrough(ben.ctx, id, "d", once));
    expect(studiesOf(ben)[0]).toEqual({ ...before, through: [expect.objectContaining({ times: 1 })] });
    expect(ben.undo.canUndo()).toBe(false);
    done(editStudy(ben.ctx, id, { name: "B" }));
    done(countThrough(ben.ctx, id, "d", once));
    expect(ben.undo.undo()).toBe(true);
    expect(studiesOf(ben)[0]).toMatchObject({ name: "", through: [{ by: "ben", times: 2 }] });
  });

  it("D41: a study that is put back, or made again by redo, has its counts again", () => {
    const ann = replica("ann", 1);
    const id = add(ann, 0, 4);
    done(countThrough(ann.ctx, id, "d", once));
    done(rubOutStudy(ann.ctx, id));
    expect(countThrough(ann.ctx, id, "d", once)).toMatchObject({ ok: false, reason: "rubbedOut" });
    expect(readRubbedOut(ann.doc, "study")[0]!.record.through).toHaveLength(1);
    done(restore(ann.ctx, "study", id));
    expect(studiesOf(ann)[0]!.through).toMatchObject([{ by: "ann", times: 1 }]);
    for (let step = 0; step < 3; step += 1) ann.undo.undo();
    expect(studiesOf(ann)).toEqual([]);
    ann.undo.redo();
    expect(studiesOf(ann)[0]!.through).toMatchObject([{ by: "ann", times: 1 }]);
  });

  it("D41: a count that cannot be read is passed over", () => {
    const ann = replica("ann", 1);
    const id = add(ann, 0, 4);
    const map = ann.doc.getMap("study");
    map.set(`${id}.through.ann.d`, { times: -1, fullSpeedTimes: 0, atMs: 1 });
    map.set(`${id}.through.nodevice`, { times: 1, fullSpeedTimes: 0, atMs: 1 });
    map.set(`${id}.through.a.b.d`, { times: 4, fullSpeedTimes: 0, atMs: 1 });
    map.set(`${id}.listen.ann`, { isLooped: 1, settings: {}, atMs: 1 });
    map.set(`${id}.listen.ben`, { isLooped: true, settings: { speed: 9, later: "word" }, atMs: 1 });
    map.set(`${id}.check.ann`, { fits: [], atMs: "1" });
    expect(studiesOf(ann)[0]).toMatchObject({
      through: [{ by: "a.b", times: 4 }],
      listening: [{ by: "ben", settings: { ...LISTENING_AT_FIRST, speed: 1.5 } }],
      check: null,
    });
    expect(registers(ann.doc)).toHaveProperty([`study/${id}.through.ann.d`]);
  });

  it("D42: how one listens is one's own, and the latest stands first", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const id = add(ann, 0, 4);
    meet(ann, ben);
    done(keepListening(ann.ctx, id, at(0.6, true)));
    const later = { ...ben.ctx, nowMs: ann.ctx.nowMs + 1000 };
    done(keepListening(ben.ctx, id, at(0.5, false)));
    done(keepListening(later, id, at(0.75, true)));
    meet(ann, ben);
    for (const on of [ann, ben])
      expect(studiesOf(on)[0]!.listening).toMatchObject([
        { by: "ben", isLooped: true, settings: { speed: 0.75 } },
        { by: "ann", isLooped: true, settings: { speed: 0.6 } },
      ]);
    expect(done(keepListening(ben.ctx, id, at(0.75, true)))).toEqual([]);
    expect(ben.undo.canUndo()).toBe(false);
    expect(studiesOf(ben)[0]!.editedBy).toBe("ann");
  });

  it("D43: the latest check holds, whoever made it", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const id = add(ann, 0, 4);
    const [event] = done(
      addPartEvent(ann.ctx, {
        startSec: 1,
        endSec: 2,
        strings: [5],
        fret: 3,
        changes: [],
        articulation: "pick",
      }),
    );
    done(keepCheck(ann.ctx, id, { [event!]: "one" }));
    meet(ann, ben);
    const later = { ...ben.ctx, nowMs: ann.ctx.nowMs + 1000 };
    done(keepCheck(ben.ctx, id, {}));
    done(keepCheck(later, id, { [event!]: "two", gone: "three" }));
    meet(ann, ben);
    for (const on of [ann, ben])
      expect(studiesOf(on)[0]!.check).toMatchObject({ by: "ben", fits: { [event!]: "two", gone: "three" } });
    expect(ben.undo.canUndo()).toBe(false);
  });
});
