import { describe, expect, it } from "vitest";
import { inkHome, rubOutHome, setHome } from "@/lib/document/commands/homes";
import { restore } from "@/lib/document/commands/restore";
import { inkGrid, inkTuning, setGrid, setTuning } from "@/lib/document/commands/whole";
import { readSong } from "@/lib/document/read/readSong";
import { done, hear, hearing, meet, type Replica, registers, replica } from "./replicas";

const homes = (on: Replica) =>
  readSong(on.doc).homes.map(({ startSec, tonic, mode, mark }) => [startSec, tonic, mode, mark]);

function heardBy(by = "ann"): Replica {
  const on = replica(by, 1);
  hear(on);
  return on;
}

describe("homes", () => {
  it("D6: inks a home as it is seen", () => {
    const ann = heardBy();
    done(inkHome(ann.ctx, readSong(ann.doc).homes[0]!.id));
    expect(homes(ann)).toEqual([[0, "G", "major", "ink"]]);
  });

  it("D12: sets a new home later on, in order of time", () => {
    const ann = heardBy();
    done(setHome(ann.ctx, { startSec: 6, tonic: "A", mode: "minor" }));
    done(setHome(ann.ctx, { startSec: 4, tonic: "Eb", mode: "major" }));
    expect(homes(ann)).toEqual([
      [0, "G", "major", "pencil"],
      [4, "Eb", "major", "ink"],
      [6, "A", "minor", "ink"],
    ]);
  });

  it("D12: setting a home where one begins changes that one", () => {
    const ann = heardBy();
    const { id } = readSong(ann.doc).homes[0]!;
    expect(done(setHome(ann.ctx, { startSec: 0.01, tonic: "E", mode: "minor" }))).toEqual([id]);
    expect(homes(ann)).toEqual([[0, "E", "minor", "ink"]]);
    expect(done(setHome(ann.ctx, { startSec: 1, tonic: "E", mode: "minor" }, id))).toEqual([id]);
    expect(homes(ann)).toEqual([[1, "E", "minor", "ink"]]);
  });

  it("D12: of homes that begin together the later edit is shown, and the other ink is listed", () => {
    const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
    done(setHome({ ...ann.ctx, nowMs: 10 }, { startSec: 2, tonic: "D", mode: "major" }));
    done(setHome({ ...ben.ctx, nowMs: 20 }, { startSec: 2.01, tonic: "B", mode: "minor" }));
    meet(ann, ben);
    for (const each of [ann, ben]) {
      expect(homes(each)).toEqual([[2.01, "B", "minor", "ink"]]);
      expect(readSong(each.doc).covered.home.map(({ tonic }) => tonic)).toEqual(["D"]);
    }
  });

  it("D3: two keys set on one home at once never mix", () => {
    const [ann, ben] = [heardBy("ann"), replica("ben", 2)];
    meet(ann, ben);
    done(setHome(ann.ctx, { startSec: 0, tonic: "Eb", mode: "major" }));
    done(setHome(ben.ctx, { startSec: 0, tonic: "F#", mode: "minor" }));
    meet(ann, ben);
    expect(homes(ann)).toEqual(homes(ben));
    expect(["Eb major", "F# minor"]).toContain(homes(ann)[0]!.slice(1, 3).join(" "));
  });

  it("D10: rubs out and puts back", () => {
    const ann = heardBy();
    const { id } = readSong(ann.doc).homes[0]!;
    done(rubOutHome(ann.ctx, id));
    expect(homes(ann)).toEqual([]);
    done(restore(ann.ctx, "home", id));
    expect(homes(ann)).toEqual([[0, "G", "major", "pencil"]]);
  });

  it.each([
    [{ startSec: Number.NaN, tonic: "G", mode: "major" as const }, "badTime"],
    [{ startSec: 1, tonic: "H", mode: "major" as const }, "badKey"],
    [{ startSec: 1, tonic: "G##", mode: "major" as const }, "badKey"],
    [{ startSec: 1, tonic: "G", mode: "dorian" as "major" }, "badKey"],
  ])("D17: refuses %j: %s", (home, reason) => {
    const ann = heardBy();
    const before = registers(ann.doc);
    expect(setHome(ann.ctx, home)).toMatchObject({ ok: false, reason });
    expect(setHome(ann.ctx, { startSec: 1, tonic: "G", mode: "major" }, "nobody")).toMatchObject({
      ok: false,
    });
    expect(registers(ann.doc)).toEqual(before);
  });
});

describe("tuning and grid", () => {
  const halfTime = { beatsSec: [0, 1, 2, 3], inBar: [1, 2, 1, 2], beatsPerBar: 2 };

  it("D6: inks the tuning and the grid as they are seen", () => {
    const ann = heardBy();
    const { tuning, grid } = readSong(ann.doc);
    done(inkTuning(ann.ctx, tuning!.id));
    done(inkGrid(ann.ctx, grid!.id));
    const after = readSong(ann.doc);
    expect(after.tuning).toMatchObject({ id: tuning!.id, tuningCents: -12.3, mark: "ink" });
    expect(after.grid).toMatchObject({ id: grid!.id, beatsSec: grid!.beatsSec, mark: "ink" });
  });

  it("D6: sets them in ink over the machine's pencil", () => {
    const ann = heardBy();
    done(setTuning(ann.ctx, 7));
    done(setGrid(ann.ctx, halfTime));
    expect(readSong(ann.doc)).toMatchObject({
      tuning: { tuningCents: 7, mark: "ink", editedBy: "ann" },
      grid: { ...halfTime, mark: "ink" },
    });
  });

  it("D13: sets them where the machine has heard nothing, and ink wins over pencil that comes later", () => {
    const ann = replica("ann", 1);
    done(setTuning(ann.ctx, 0));
    done(setGrid(ann.ctx, halfTime));
    hear(ann);
    expect(readSong(ann.doc)).toMatchObject({
      tuning: { tuningCents: 0, mark: "ink" },
      grid: { ...halfTime, mark: "ink" },
    });
  });

  it("D3: two grids set at once never mix", () => {
    const [ann, ben] = [heardBy("ann"), replica("ben", 2)];
    meet(ann, ben);
    const waltz = { beatsSec: [0, 0.5, 1], inBar: [1, 2, 3], beatsPerBar: 3 };
    done(setGrid(ann.ctx, halfTime));
    done(setGrid(ben.ctx, waltz));
    meet(ann, ben);
    const { beatsSec, inBar, beatsPerBar } = readSong(ann.doc).grid!;
    expect([halfTime, waltz]).toContainEqual({ beatsSec, inBar, beatsPerBar });
    expect(readSong(ben.doc)).toEqual(readSong(ann.doc));
  });

  it("D17: refuses bad tunings and grids", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    for (const cents of [Number.NaN, 51, -51, Number.POSITIVE_INFINITY]) {
      expect(setTuning(ann.ctx, cents)).toMatchObject({ reason: "badTuning" });
    }
    for (const wrong of [
      { beatsSec: [] as number[], inBar: [] as number[] },
      { beatsSec: [1, 0] },
      { inBar: [1, 2, 3, 4, 5] },
      { inBar: [1, 2, 3, 2] },
      { beatsPerBar: 0 },
      { beatsSec: [0, 1, 2, Number.NaN] },
    ]) {
      expect(setGrid(ann.ctx, { ...halfTime, ...wrong })).toMatchObject({ reason: "badBeats" });
    }
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D1: the document holds times in seconds; beats are times of the grid", () => {
    const ann = heardBy();
    expect(readSong(ann.doc).grid!.beatsSec).toEqual(hearing().grid.beats.map((beat) => beat.timeSec));
    const keys = Object.keys(registers(ann.doc)).filter((key) => !key.startsWith("grid/"));
    expect(keys.filter((key) => /beat|bar$/i.test(key))).toEqual([]);
  });
});
