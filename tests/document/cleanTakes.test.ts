import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { countClean, countThrough } from "@/lib/document/commands/practice";
import { restore } from "@/lib/document/commands/restore";
import { addStudies, editStudy, rubOutStudy } from "@/lib/document/commands/studies";
import { readSong } from "@/lib/document/read/readSong";
import { done, meet, type Replica, registers, replica, send } from "./replicas";
import { expectValid } from "./validSong";

const once = { times: 1, fullSpeedTimes: 1 };

function add(on: Replica): string {
  return done(addStudies(on.ctx, [{ startSec: 0, endSec: 4, name: "" }]))[0]!;
}
function study(on: Replica) {
  return readSong(on.doc).studies[0]!;
}

describe("clean takes of a study", () => {
  it("D64: add up by person over devices, whoever counts at once and in whatever order copies meet", () => {
    const count = fc.record({
      who: fc.integer({ min: 0, max: 2 }),
      times: fc.integer({ min: 1, max: 3 }),
      isFull: fc.boolean(),
      meets: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(count, { maxLength: 12 }), (counts) => {
        const copies = [replica("ann", 1), replica("ann", 2, "phone"), replica("ben", 3)];
        const id = add(copies[0]!);
        meet(...copies);
        const expected = new Map<string, [number, number]>();
        for (const { who, times, isFull, meets } of counts) {
          const on = copies[who]!;
          const full = isFull ? times : 0;
          done(countClean(on.ctx, id, `device${who}`, { times, fullSpeedTimes: full }));
          const before = expected.get(on.by) ?? [0, 0];
          expected.set(on.by, [before[0] + times, before[1] + full]);
          if (meets) send(on, copies[(who + 1) % 3]!);
        }
        meet(...copies);
        for (const on of copies) {
          const shown = study(on).clean.map(({ by, times, fullSpeedTimes }) => [by, [times, fullSpeedTimes]]);
          expect(shown).toEqual([...expected].sort());
          expectValid(readSong(on.doc));
        }
      }),
      { numRuns: 40 },
    );
  });

  it("D64: counting is no edit, undo leaves it, and times through stand apart", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    const id = add(ann);
    send(ann, ben);
    const before = study(ben);
    done(countClean(ben.ctx, id, "d", once));
    expect(study(ben)).toEqual({ ...before, clean: [{ by: "ben", ...once, atMs: expect.any(Number) }] });
    expect(ben.undo.canUndo()).toBe(false);
    done(editStudy(ben.ctx, id, { name: "B" }));
    done(countThrough(ben.ctx, id, "d", { times: 5, fullSpeedTimes: 0 }));
    done(countClean(ben.ctx, id, "d", once));
    expect(ben.undo.undo()).toBe(true);
    expect(study(ben)).toMatchObject({
      name: "",
      clean: [{ by: "ben", times: 2, fullSpeedTimes: 2 }],
      through: [{ by: "ben", times: 5 }],
    });
  });

  it("D64: a study that is put back has its clean takes again; one that is rubbed out counts none", () => {
    const ann = replica("ann", 1);
    const id = add(ann);
    done(countClean(ann.ctx, id, "d", once));
    done(rubOutStudy(ann.ctx, id));
    expect(countClean(ann.ctx, id, "d", once)).toMatchObject({ ok: false, reason: "rubbedOut" });
    done(restore(ann.ctx, "study", id));
    expect(study(ann).clean).toMatchObject([{ by: "ann", times: 1 }]);
  });

  it("D64: a count that makes no sense is refused, and one that cannot be read passed over (D5, D17)", () => {
    const ann = replica("ann", 1);
    const id = add(ann);
    const before = registers(ann.doc);
    const refused = [
      countClean(ann.ctx, id, "d", { times: 0, fullSpeedTimes: 0 }),
      countClean(ann.ctx, id, "d", { times: 1, fullSpeedTimes: 2 }),
      countClean(ann.ctx, id, "a.device", once),
      countClean(ann.ctx, "nobody", "d", once),
    ];
    expect(refused.map((each) => !each.ok && each.reason)).toEqual([
      "badCount",
      "badCount",
      "badId",
      "unknownRecord",
    ]);
    expect(registers(ann.doc)).toEqual(before);
    const map = ann.doc.getMap("study");
    map.set(`${id}.clean.ann.d`, { times: 1, fullSpeedTimes: 2, atMs: 1 });
    map.set(`${id}.clean.nodevice`, { times: 1, fullSpeedTimes: 0, atMs: 1 });
    map.set(`${id}.clean.a.b.d`, { times: 4, fullSpeedTimes: 1, atMs: 1 });
    expect(study(ann)).toMatchObject({ clean: [{ by: "a.b", times: 4 }], through: [] });
  });
});
