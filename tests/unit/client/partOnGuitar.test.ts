import { describe, expect, it } from "vitest";
import { partAsWritten, partOnGuitar, playableOn } from "@/lib/client/song/partOnGuitar";
import { placeAnew } from "@/lib/client/song/placeAnew";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { readChart } from "@/lib/instrument/chart/readChart";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import { E9, E9_CBA, E9_SMALL } from "@/lib/instrument/copedents/e9";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { C_MAJOR } from "@/lib/theory/key";

const LAP = findCopedent("lap-c6")!;

function event(id: string, startSec: number, changed: Partial<ShownPart>): ShownPart {
  const written = {
    strings: [5, 6],
    fret: 3,
    frets: null,
    changes: [],
    articulation: "pick" as const,
    ...changed,
  };
  return {
    id,
    part: "part",
    startSec,
    endSec: startSec + 1,
    writtenEndSec: startSec + 1,
    writtenStrings: written.strings,
    mark: "ink",
    confidence: null,
    madeBy: "ann",
    madeAtMs: 0,
    editedBy: "ann",
    editedAtMs: 0,
    ...written,
  };
}

const PART = [
  event("open", 0, {}),
  event("down", 1, { changes: ["A", "B"], articulation: "press" }),
  event("lowered", 2, { strings: [2], changes: ["D"] }),
  event("flat", 3, { strings: [5, 6], changes: ["V"] }),
];

describe("a part as it is written", () => {
  it("is the very same where it fits", () => {
    const { part, flags } = partAsWritten(PART, E9);
    expect(flags.size).toBe(0);
    for (const [at, each] of part.entries()) expect(each).toBe(PART[at]);
  });

  it("flags what its guitar lacks, and keeps the rest of it", () => {
    const odd = [
      event("letter", 0, { changes: ["A", "Q"] }),
      event("string", 1, { strings: [5, 12] }),
      event("gone", 2, { strings: [12], frets: [4] }),
      event("unsplit", 3, { strings: [4], changes: ["C", "E"] }),
    ];
    const { part, flags } = partAsWritten(odd, E9);
    expect([...flags.values()].map(({ reasons }) => reasons)).toEqual([
      [`Q is no pedal or lever of ${E9.name}.`],
      [`${E9.name} has no string 12.`],
      [`${E9.name} has no string 12.`],
      [`String 4 gives no dependable pitch on ${E9.name} with C, E.`],
    ]);
    expect(part.map(({ strings, changes }) => [strings, changes])).toEqual([
      [[5, 6], ["A"]],
      [[5], []],
      [[1], []],
      [[4], ["C", "E"]],
    ]);
    for (const each of part) expect(() => stoppedPitches(E9, each)).not.toThrow();
    expect(flags.get("letter")?.written).toBe(odd[0]);
    expect(playableOn([...odd, PART[0]!], E9)).toEqual([PART[0]]);
    expect(playableOn(PART, E9)).toBe(PART);
  });
});

describe("a part on another guitar", () => {
  it("sounds the same under that guitar's own letters and places", () => {
    const { part, flags } = partOnGuitar(PART, E9, E9_CBA);
    expect(flags.size).toBe(0);
    for (const [at, each] of part.entries())
      expect(stoppedPitches(E9_CBA, each)).toEqual(stoppedPitches(E9, PART[at]!));
  });

  it("flags what cannot be played there, with the reason", () => {
    const { part, flags } = partOnGuitar(PART, E9, E9_SMALL);
    expect([...flags.keys()]).toEqual(["flat"]);
    expect(flags.get("flat")?.reasons.join(" ")).toMatch(/^String 5 cannot go down a half step/);
    expect(part.map(({ id }) => id)).toEqual(PART.map(({ id }) => id));
  });

  it("has it placed anew, with the rest as it lies, at the same pitches", () => {
    const read = partOnGuitar(PART, E9, E9_SMALL);
    const instead = placeAnew(read, E9, E9_SMALL, { key: C_MAJOR, changes: [] });
    expect([...instead.keys()]).toEqual(["flat"]);
    const again = partOnGuitar(PART, E9, E9_SMALL, instead);
    expect(again.flags.size).toBe(0);
    const sorted = (pitches: (number | null)[]) => [...pitches].sort();
    for (const [at, each] of again.part.entries())
      expect(sorted(stoppedPitches(E9_SMALL, each))).toEqual(sorted(stoppedPitches(E9, PART[at]!)));
    expect(again.part.slice(0, 3)).toEqual(read.part.slice(0, 3));
  });

  it("picks what cannot sound on, and says how the rest comes there now", () => {
    const lowered = { id: "V", slot: "LKV", moves: { "2": -1 } };
    const from = readChart({ strings: [64, 59, 40], changes: [lowered] });
    const to = readChart({ strings: [64, 59, 40], frets: 24 });
    const goesOn = (fret: number) => {
      const part = [
        event("held", 0, { strings: [2], fret }),
        event("lowered", 1, { strings: [2], fret, changes: ["V"], articulation: "press" }),
      ];
      return placeAnew(partOnGuitar(part, from, to), from, to, { key: C_MAJOR, changes: [] }).get("lowered");
    };
    // One fret lower on the same string: no pedal presses any more, the bar slides.
    expect(goesOn(3)).toMatchObject({ strings: [2], fret: 2, changes: [], articulation: "slide" });
    // Below the open string, only the low one has it.
    expect(goesOn(0)).toMatchObject({ strings: [3], fret: 18, articulation: "pick" });
  });

  it("leaves out what lies nowhere on it, and what nobody knows the sound of", () => {
    const odd = [event("low", 0, { strings: [10], fret: 0 }), event("letter", 1, { changes: ["Q"] })];
    const read = partOnGuitar(odd, E9, LAP);
    expect([...read.flags.keys()]).toEqual(["low", "letter"]);
    // B2 lies below the lowest string of a six-string C6 lap steel, C3.
    expect(placeAnew(read, E9, LAP, { key: C_MAJOR, changes: [] }).size).toBe(0);
  });
});
