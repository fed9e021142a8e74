import { describe, expect, it } from "vitest";
import {
  endBeforeNext,
  engagedStage,
  eventBefore,
  eventBeginningAt,
  lettersOn,
  soundingArticulation,
  toggleChange,
  typeDigit,
} from "@/lib/client/song/partTyping";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { readChart } from "@/lib/instrument/chart/readChart";
import { C6 } from "@/lib/instrument/copedents/c6";
import { E9 } from "@/lib/instrument/copedents/e9";

function event(
  id: string,
  startSec: number,
  strings: number[],
  fret: number,
  changes: string[] = [],
): ShownPart {
  return {
    id,
    part: "part",
    startSec,
    endSec: startSec + 0.5,
    writtenEndSec: startSec + 0.5,
    strings,
    writtenStrings: strings,
    fret,
    changes,
    articulation: "pick",
    mark: "ink",
    confidence: null,
    madeBy: "one",
    madeAtMs: 0,
    editedBy: "one",
    editedAtMs: 0,
  };
}

const PART = [event("a", 1, [5, 6], 3), event("b", 2, [4], 8), event("c", 3, [5, 6], 10, ["A", "B"])];

describe("typing into the part", () => {
  it("finds the event at the caret, on its string first", () => {
    const two = [...PART, event("d", 3, [8], 10)];
    expect(eventBeginningAt(two, { string: 8, timeSec: 3.01 })?.id).toBe("d");
    expect(eventBeginningAt(two, { string: 6, timeSec: 3 })?.id).toBe("c");
    expect(eventBeginningAt(two, { string: 1, timeSec: 1 })?.id).toBe("a");
    expect(eventBeginningAt(two, { string: 5, timeSec: 1.4 })).toBeNull();
  });

  it("finds what sounded before on the same strings", () => {
    expect(eventBefore(PART, 3, [5])?.id).toBe("a");
    expect(eventBefore(PART, 1, [5])).toBeNull();
  });

  it("ends a new event where the next begins", () => {
    expect(endBeforeNext(PART, 1.5, 2.5)).toBe(2);
    expect(endBeforeNext(PART, 3.5, 4)).toBe(4);
  });

  it("joins digits to frets that the neck has", () => {
    expect(typeDigit("", "1", 24)).toBe("1");
    expect(typeDigit("1", "0", 24)).toBe("10");
    expect(typeDigit("3", "5", 24)).toBe("5");
    expect(typeDigit("0", "7", 24)).toBe("7");
  });

  it("goes through the stages of a change, in the copedent's order", () => {
    expect(toggleChange(E9, [], "a")).toEqual(["A"]);
    expect(toggleChange(E9, ["B"], "a")).toEqual(["A", "B"]);
    expect(toggleChange(E9, ["A", "B"], "A")).toEqual(["B"]);
    expect(toggleChange(E9, ["D"], "d")).toEqual(["DD"]);
    expect(toggleChange(E9, ["DD"], "d")).toEqual([]);
    expect(toggleChange(E9, [], "z")).toBeNull();
    expect(toggleChange(C6, ["P6"], "p5")).toEqual(["P5", "P6"]);
  });

  it("tells in which stage a change is engaged, and not by the beginning of its name", () => {
    const chart = {
      name: "One letter and three",
      strings: [64, 60],
      changes: [
        { id: "L", slot: "LOCK", stages: [{ "1": -1 }, { "1": -2 }] },
        { id: "LKL", slot: "LKL", moves: { "2": 1 } },
      ],
    };
    const [lock, lever] = readChart(chart).changes;
    expect(engagedStage(lock!, ["LKL"])).toBeUndefined();
    expect(engagedStage(lever!, ["LKL"])).toBe("LKL");
    expect(engagedStage(lock!, ["LL", "LKL"])).toBe("LL");
  });

  it("tells slides, presses and releases apart by what differs", () => {
    const open = { strings: [5], fret: 3, changes: [] };
    expect(soundingArticulation(open, { strings: [5], fret: 5, changes: [] })).toBe("slide");
    expect(soundingArticulation(open, { strings: [5], fret: 3, changes: ["A"] })).toBe("press");
    expect(soundingArticulation({ strings: [5], fret: 3, changes: ["A"] }, open)).toBe("release");
    const slant = { strings: [5, 6], fret: 3, frets: [3, 4], changes: ["A"] };
    expect(soundingArticulation(open, slant)).toBe("press");
    expect(soundingArticulation(open, { ...slant, fret: 2, frets: [2, 3] })).toBe("slidePress");
    expect(soundingArticulation(open, { strings: [5], fret: 10, changes: ["A", "B"] })).toBe("slidePress");
  });

  // Pedal A raises strings 5 and 10, B raises 3 and 6 (b0b.com/wp/copedents/understanding-e9th, B. Lee).
  it("writes a pedal on the strings that it pulls", () => {
    expect(lettersOn(E9, ["A", "B"], 5)).toBe("A");
    expect(lettersOn(E9, ["A", "B"], 6)).toBe("B");
    expect(lettersOn(E9, ["A", "B"], 4)).toBe("");
    expect(lettersOn(E9, ["DD"], 9)).toBe("DD");
    expect(lettersOn(C6, ["P7", "LKL"], 4)).toBe("P7+LKL");
  });
});
