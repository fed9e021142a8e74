import { describe, expect, it } from "vitest";
import { inkChange, setChangeLabel, splitChange } from "@/lib/document/commands/changes";
import { setHome } from "@/lib/document/commands/homes";
import { inkGrid, setGrid } from "@/lib/document/commands/whole";
import { readSong } from "@/lib/document/read/readSong";
import { chords, done, hear, hearing, type Replica, registers, replica } from "./replicas";

function heardBy(by = "ann"): Replica {
  const on = replica(by, 1);
  hear(on);
  return on;
}
const changeAt = (on: Replica, index: number) => readSong(on.doc).changes[index]!;

describe("what the machine says besides", () => {
  const ofG = [
    { label: "G:maj", confidence: 0.6 },
    { label: "E:min", confidence: 0.3 },
    { label: "A:min7", confidence: 0.1 },
  ];

  it("D23: a change tells what it may be, the proposal first", () => {
    expect(changeAt(heardBy(), 0).guesses).toEqual(ofG);
  });

  it("D23: a home tells what it may be, the proposal first", () => {
    expect(readSong(heardBy().doc).homes[0]!.guesses).toEqual([
      { tonic: "G", mode: "major", confidence: 0.7 },
      { tonic: "E", mode: "minor", confidence: 0.2 },
      { tonic: "D", mode: "major", confidence: 0.05 },
    ]);
  });

  it("D23: stays beside ink as what the machine took it for, and is no part of what is inked", () => {
    const ann = heardBy();
    const { id } = changeAt(ann, 0);
    done(inkChange(ann.ctx, id));
    done(setChangeLabel(ann.ctx, id, "E:min"));
    expect(changeAt(ann, 0)).toMatchObject({ label: "E:min", mark: "ink", guesses: ofG });
    const home = readSong(ann.doc).homes[0]!;
    done(setHome(ann.ctx, { startSec: 0, tonic: "E", mode: "minor" }, home.id));
    expect(readSong(ann.doc).homes[0]).toMatchObject({ tonic: "E", mode: "minor", guesses: home.guesses });
    const inks = Object.entries(registers(ann.doc)).filter(([key]) => key.includes(".ink."));
    expect(inks).toHaveLength(2);
    expect(JSON.stringify(inks)).not.toMatch(/nextBest|aside/);
  });

  it("D23: what a person wrote is no guess of the machine's", () => {
    const ann = heardBy();
    const [, second] = done(splitChange(ann.ctx, changeAt(ann, 0).id, 1));
    expect(readSong(ann.doc).changes.find((each) => each.id === second)!.guesses).toEqual([]);
  });

  it("D23: pencil of older versions says no more than its proposal; guesses that cannot be read are left out", () => {
    const ann = heardBy();
    const map = ann.doc.getMap<object>("change");
    const { id } = changeAt(ann, 0);
    const pencil = map.get(`${id}.pencil`)!;
    for (const aside of [
      undefined,
      "newer",
      { nextBest: 5 },
      { nextBest: [{ label: "?", confidence: 0.5 }, { label: "G" }, { label: "G", confidence: 2 }, null] },
    ]) {
      map.set(`${id}.pencil`, { ...pencil, aside });
      expect(changeAt(ann, 0)).toMatchObject({ label: "G:maj", confidence: 0.6 });
      expect(changeAt(ann, 0).guesses).toEqual([{ label: "G:maj", confidence: 0.6 }]);
    }
  });

  it("D8: hearing again with other guesses writes them, and the same ones nothing", () => {
    const ann = heardBy();
    const before = registers(ann.doc);
    hear(ann);
    expect(registers(ann.doc)).toEqual(before);
    const again = chords("G:maj", "C:maj", "D:7", "G:maj").map((each) => ({ ...each, nextBest: [] }));
    hear(ann, hearing({ chords: again }), "run 2");
    expect(changeAt(ann, 0).guesses).toEqual(ofG.slice(0, 1));
  });

  it.each([
    { chords: [{ ...chords("G:maj")[0]!, nextBest: [{ label: "what", confidence: 0.2 }] }] },
    {
      homes: [{ ...hearing().homes[0]!, nextBest: [{ tonic: "G", mode: "major", confidence: 7 } as const] }],
    },
    { grid: { ...hearing().grid, barsConfidence: Number.NaN } },
    { grid: { ...hearing().grid, division: 4 as 2 } },
    { grid: { ...hearing().grid, freeStretches: [{ startSec: 3, endSec: 2 }] } },
    { bass: [{ startSec: 2, endSec: 1, midi: 40, confidence: 1 }] },
    { bass: [{ startSec: 1, endSec: 2, midi: 40.2, confidence: 1 }] },
    { sections: [{ ...hearing().sections[0]!, label: "" }] },
    { sections: [{ ...hearing().sections[0]!, transposedSemitones: 7 }] },
  ])("D17: a hearing with %j is refused whole", (wrong) => {
    const ann = replica("ann", 1);
    expect(hear(ann, hearing(wrong))).toMatchObject({ ok: false, reason: "badHearing" });
    expect(registers(ann.doc)).toEqual({});
  });
});

describe("the grid's further words", () => {
  const inThree = { division: 3 as const, freeStretches: [{ startSec: 0, endSec: 1.25 }] };

  it("D23: tells the beats' certainty apart from the bars', until a person overrules them", () => {
    const ann = heardBy();
    expect(readSong(ann.doc).grid).toMatchObject({ beatsConfidence: 0.9, barsConfidence: 0.8 });
    expect(readSong(ann.doc).grid!.confidence).toBeCloseTo(0.72);
    done(inkGrid(ann.ctx, readSong(ann.doc).grid!.id));
    expect(readSong(ann.doc).grid).toMatchObject({ beatsConfidence: 0.9, barsConfidence: 0.8 });
    done(setGrid(ann.ctx, { beatsSec: [0, 1], inBar: [1, 2], beatsPerBar: 2 }));
    expect(readSong(ann.doc).grid).toMatchObject({ beatsConfidence: null, barsConfidence: null });
  });

  it("D24: says how the beat divides and where time is free; inked with the rest of the grid", () => {
    const ann = replica("ann", 1);
    hear(ann, hearing({ grid: { ...hearing().grid, ...inThree } }));
    expect(readSong(ann.doc).grid).toMatchObject(inThree);
    done(inkGrid(ann.ctx, readSong(ann.doc).grid!.id));
    expect(readSong(ann.doc).grid).toMatchObject({ ...inThree, mark: "ink" });
  });

  it("D24: a grid of an older version divides in two and has no free stretch", () => {
    const ann = replica("ann", 1);
    done(setGrid(ann.ctx, { beatsSec: [0, 1], inBar: [1, 2], beatsPerBar: 2 }));
    expect(readSong(ann.doc).grid).toMatchObject({ beatsSec: [0, 1], division: 2, freeStretches: [] });
  });

  it("D17: refuses free stretches that overlap or run backwards, and other divisions", () => {
    const ann = heardBy();
    const beats = { beatsSec: [0, 1], inBar: [1, 2], beatsPerBar: 2 };
    const overlapping = [
      { startSec: 0, endSec: 2 },
      { startSec: 1, endSec: 3 },
    ];
    for (const wrong of [
      { freeStretches: overlapping },
      { freeStretches: [{ startSec: 1, endSec: 1 }] },
      { division: 4 as 3 },
    ])
      expect(setGrid(ann.ctx, { ...beats, ...wrong })).toMatchObject({ reason: "badBeats" });
  });
});
