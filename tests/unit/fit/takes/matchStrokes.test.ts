import { describe, expect, it } from "vitest";
import { matchStrokes } from "@/lib/fit/takes/matchStrokes";

/** Strokes and picks by what they sound: the same letter sounds right. */
function match(wanted: [sec: number, name: string][], picked: [sec: number, name: string][], loudness = 1) {
  return matchStrokes({
    wantedSec: wanted.map(([sec]) => sec),
    pickedSec: picked.map(([sec]) => sec),
    loudness: picked.map(() => loudness),
    sounds: (stroke, pick) => (wanted[stroke]![1] === picked[pick]![1] ? 5 : -5),
  });
}

const SCALE: [number, string][] = [
  [0.5, "c"],
  [0.7, "d"],
  [0.9, "e"],
  [1.1, "f"],
];

describe("strokes and picks", () => {
  it("go together in their order, however late all of them are, within a third of a second", () => {
    for (const late of [-0.3, -0.1, 0, 0.2, 0.3])
      expect(
        match(
          SCALE,
          SCALE.map(([sec, name]) => [sec + late, name]),
        ),
      ).toEqual([0, 1, 2, 3]);
  });

  it("leave out a stroke that was not played, rather than shifting all after it", () => {
    expect(match(SCALE, [SCALE[0]!, SCALE[2]!, SCALE[3]!])).toEqual([0, null, 1, 2]);
  });

  it("take a wrong note at the right time for the stroke, and pass by what was played between", () => {
    expect(match(SCALE, [SCALE[0]!, [0.7, "x"], SCALE[2]!, [1, "y"], SCALE[3]!])).toEqual([0, 1, 2, 4]);
  });

  it("take nothing as faint as what leaks into a microphone", () => {
    expect(match(SCALE, SCALE, 0.02)).toEqual([null, null, null, null]);
  });

  it("are none where there are none", () => {
    expect(match([], SCALE)).toEqual([]);
    expect(match(SCALE, [])).toEqual([null, null, null, null]);
  });
});
