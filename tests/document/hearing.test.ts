import { describe, expect, it } from "vitest";
import { inkChange, rubOutChange, setChangeLabel, splitChange } from "@/lib/document/commands/changes";
import { setHome } from "@/lib/document/commands/homes";
import { setTuning } from "@/lib/document/commands/whole";
import { readSong } from "@/lib/document/read/readSong";
import { heardId } from "@/lib/document/records/heardId";
import type { Hearing } from "@/lib/hearing/Hearing";
import { chords, done, hear, hearing, meet, type Replica, registers, replica } from "./replicas";

const labels = (on: Replica) => readSong(on.doc).changes.map(({ label, mark }) => `${label} ${mark}`);
const idAt = (on: Replica, index: number) => readSong(on.doc).changes[index]!.id;

/** The registers of records that a person inked or rubbed out. */
function personal(on: Replica): Record<string, unknown> {
  const all = Object.entries(registers(on.doc));
  const touched = new Set(all.flatMap(([key]) => key.match(/^(.*?)\.(?:ink|rub)\./)?.[1] ?? []));
  return Object.fromEntries(all.filter(([key]) => touched.has(key.split(".")[0]!)));
}

describe("ids of findings", () => {
  it("D7: are the same for starts that round to the same 10 ms, and differ by kind and label", () => {
    expect(heardId("change", 1.001, "G:maj")).toBe(heardId("change", 0.999, "G:maj"));
    const ids = [
      heardId("change", 1, "G:maj"),
      heardId("change", 1.01, "G:maj"),
      heardId("change", 1, "G:min"),
      heardId("home", 1, "G:maj"),
    ];
    expect(new Set(ids).size).toBe(4);
    for (const id of ids) expect(id).toMatch(/^m[0-9a-f]{15}$/);
  });

  // SHA-256 of "change|100|G:maj", reckoned with the sha256sum of GNU coreutils.
  it("D7: are the first 60 bits of SHA-256", () => {
    expect(heardId("change", 1, "G:maj")).toBe("m13722c0eca144c7");
  });
});

describe("writing a hearing", () => {
  it("D7: writes everything in pencil, made by the machine", () => {
    const ann = replica("ann", 1);
    const ids = done(hear(ann));
    const song = readSong(ann.doc);
    const { homes, changes, bass, sections, notes } = song;
    const all = [song.tuning!, song.grid!, ...homes, ...changes, ...bass, ...sections, ...notes];
    expect(all.map((each) => each.id)).toEqual(ids);
    for (const each of all) expect(each).toMatchObject({ mark: "pencil", madeBy: "machine" });
    expect(song.tuning).toMatchObject({ tuningCents: -12.3, confidence: 0.9 });
    expect(song.homes).toMatchObject([{ startSec: 0, tonic: "G", mode: "major", confidence: 0.7 }]);
    expect(labels(ann)).toEqual(["G:maj pencil", "C:maj pencil", "D:7 pencil", "G:maj pencil"]);
    expect(song.heard).toMatchObject({ runId: "run 1", version: "test 1" });
  });

  it("D7: the same run written twice, or on two copies, gives one set of records", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    hear(ann);
    const once = registers(ann.doc);
    hear(ann);
    expect(registers(ann.doc)).toEqual(once);
    hear(ben);
    meet(ann, ben);
    expect(registers(ann.doc)).toEqual(once);
    expect(registers(ben.doc)).toEqual(once);
  });

  it.each<[string, Partial<Hearing>]>([
    ["a label in no known syntax", { chords: chords("what") }],
    [
      "a chord that ends before it starts",
      { chords: [{ startSec: 2, endSec: 1, label: "G", confidence: 1, nextBest: [] }] },
    ],
    [
      "no number for a time",
      { chords: [{ startSec: Number.NaN, endSec: 1, label: "G", confidence: 1, nextBest: [] }] },
    ],
    ["a tuning out of range", { tuningCents: 70 }],
    ["a certainty above 1", { tuningConfidence: 1.5 }],
    [
      "a home of no key",
      { homes: [{ startSec: 0, endSec: 1, tonic: "H", mode: "major", confidence: 1, nextBest: [] }] },
    ],
    [
      "beats out of order",
      {
        grid: {
          ...hearing().grid,
          beats: [
            { timeSec: 1, inBar: 1 },
            { timeSec: 0, inBar: 2 },
          ],
        },
      },
    ],
  ])("D17: refuses a hearing with %s, whole", (_, wrong) => {
    const ann = replica("ann", 1);
    expect(hear(ann, hearing(wrong))).toMatchObject({ ok: false, reason: "badHearing" });
    expect(registers(ann.doc)).toEqual({});
  });

  it("D7: a finding that stands twice counts once, as it stands first", () => {
    const ann = replica("ann", 1);
    const twice = [0.001, 0.004].map((startSec) => ({
      startSec,
      endSec: 2,
      label: "G:maj",
      confidence: 0.5,
      nextBest: [],
    }));
    done(hear(ann, hearing({ chords: twice })));
    expect(readSong(ann.doc).changes).toMatchObject([{ startSec: 0.001, endSec: 2 }]);
  });

  it("D13: a record without beats gives no grid", () => {
    const ann = replica("ann", 1);
    done(hear(ann, hearing({ grid: { ...hearing().grid, beats: [] } })));
    expect(readSong(ann.doc).grid).toBeNull();
  });
});

describe("hearing again", () => {
  it("D8: new findings replace the machine's own pencil", () => {
    const ann = replica("ann", 1);
    hear(ann);
    const kept = idAt(ann, 0);
    hear(ann, hearing({ tuningCents: 4, chords: chords("G:maj", "A:min", "D:maj", "G:maj") }), "run 2");
    expect(labels(ann)).toEqual(["G:maj pencil", "A:min pencil", "D:maj pencil", "G:maj pencil"]);
    expect(idAt(ann, 0)).toBe(kept);
    expect(readSong(ann.doc)).toMatchObject({ tuning: { tuningCents: 4 }, heard: { runId: "run 2" } });
  });

  it("D8: a finding with a new end or certainty keeps its id", () => {
    const ann = replica("ann", 1);
    hear(ann, hearing({ chords: chords("G:maj") }));
    const id = idAt(ann, 0);
    hear(
      ann,
      hearing({ chords: [{ startSec: 0.002, endSec: 3, label: "G:maj", confidence: 0.9, nextBest: [] }] }),
      "run 2",
    );
    expect(readSong(ann.doc).changes).toMatchObject([{ id, startSec: 0.002, endSec: 3, confidence: 0.9 }]);
  });

  it("D8: touches nothing a person inked, edited or rubbed out", () => {
    const ann = replica("ann", 1);
    hear(ann);
    const ids = readSong(ann.doc).changes.map((each) => each.id);
    done(inkChange(ann.ctx, ids[0]!));
    done(setChangeLabel(ann.ctx, ids[1]!, "A:min"));
    done(rubOutChange(ann.ctx, ids[2]!));
    done(splitChange(ann.ctx, ids[3]!, 7));
    done(setHome(ann.ctx, { startSec: 0, tonic: "E", mode: "minor" }));
    done(setTuning(ann.ctx, 0));
    const before = { registers: personal(ann), song: readSong(ann.doc) };
    for (const again of [
      hearing(),
      hearing({ chords: chords("E:min", "E:min", "E:min", "E:min"), tuningCents: 20 }),
      hearing({ chords: [{ startSec: 0, endSec: 8, label: "G:maj", confidence: 0.1, nextBest: [] }] }),
    ]) {
      done(hear(ann, again, "again"));
      expect(personal(ann)).toEqual(before.registers);
      const ink = (each: { mark: string }) => each.mark === "ink";
      expect(readSong(ann.doc).changes.filter(ink)).toEqual(before.song.changes.filter(ink));
      expect(readSong(ann.doc).homes.filter(ink)).toEqual(before.song.homes.filter(ink));
      expect(readSong(ann.doc).tuning).toEqual(before.song.tuning);
    }
  });

  it("D8: what a person rubbed out stays rubbed out, also when it was missed once in between", () => {
    const ann = replica("ann", 1);
    hear(ann);
    done(rubOutChange(ann.ctx, idAt(ann, 1)));
    hear(ann, hearing({ chords: chords("G:maj") }), "run 2");
    hear(ann, hearing(), "run 3");
    expect(labels(ann)).toEqual(["G:maj pencil", "D:7 pencil", "G:maj pencil"]);
  });

  it.each([1, 9])(
    "D7: at once with a person's inking, the ink stands (machine's client id %d)",
    (clientId) => {
      const [ann, machine] = [replica("ann", 5), replica("host", clientId)];
      hear(ann);
      meet(ann, machine);
      const id = idAt(ann, 1);
      done(inkChange(ann.ctx, id));
      const again = chords("G:maj", "C:maj", "F:maj");
      hear(
        machine,
        hearing({ chords: again.map((each) => ({ ...each, endSec: each.endSec - 0.5, confidence: 0.1 })) }),
        "run 2",
      );
      meet(ann, machine);
      const ink = readSong(ann.doc).changes.find((each) => each.id === id);
      expect(ink).toMatchObject({ startSec: 2, endSec: 4, label: "C:maj", mark: "ink", editedBy: "ann" });
      expect(readSong(machine.doc)).toEqual(readSong(ann.doc));
    },
  );

  it("D8: of two hearings written at once one holds whole", () => {
    const [one, two] = [replica("host", 1), replica("other", 2)];
    hear(one, hearing({ chords: chords("G:maj", "C:maj", "D:7") }), "run 1");
    hear(two, hearing({ chords: chords("E:min", "A:min", "B:7") }), "run 2");
    meet(one, two);
    const sheets = ["G:maj pencil,C:maj pencil,D:7 pencil", "E:min pencil,A:min pencil,B:7 pencil"];
    expect(sheets).toContain(labels(one).join());
    expect(labels(two)).toEqual(labels(one));
  });

  it("D8: ink taken back after a hearing that no longer finds it leaves no old pencil", () => {
    const ann = replica("ann", 1);
    hear(ann);
    done(inkChange(ann.ctx, idAt(ann, 1)));
    hear(ann, hearing({ chords: chords("G:maj", "A:min") }), "run 2");
    expect(labels(ann)).toEqual(["G:maj pencil", "C:maj ink"]);
    ann.undo.undo();
    expect(labels(ann)).toEqual(["G:maj pencil", "A:min pencil"]);
  });
});
