import { describe, expect, it } from "vitest";
import { caretFrom } from "@/lib/client/song/caretFrom";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { E9 } from "@/lib/instrument/copedents/e9";

/** Two beats a second, in bars of four. */
const grid = {
  beatsSec: Array.from({ length: 16 }, (_, beat) => beat * 0.5),
  inBar: Array.from({ length: 16 }, (_, beat) => (beat % 4) + 1),
  beatsPerBar: 4,
};
const at = (startSec: number, strings: number[]) =>
  ({ id: String(startSec), startSec, endSec: startSec + 0.4, strings, fret: 3 }) as ShownPart;

describe("the way into the part", () => {
  it("leads to the middle string where nothing is written yet, on the beat", () => {
    expect(caretFrom([], 1.1, grid, E9)).toEqual({ string: 5, timeSec: 1 });
    expect(caretFrom([], 1.1, null, E9)).toEqual({ string: 5, timeSec: 1.1 });
  });

  it("leads to the event that begins there, on its upper string, though it stands off the beat", () => {
    const part = [at(0.5, [4, 5]), at(1.13, [6, 8, 10]), at(1.5, [3])];
    expect(caretFrom(part, 1, grid, E9)).toEqual({ string: 6, timeSec: 1.13 });
    expect(caretFrom(part, 1.3, null, E9)).toEqual({ string: 6, timeSec: 1.13 });
  });

  it("leads to the nearer of two within the beat", () => {
    const part = [at(0.9, [3]), at(1.1, [8])];
    expect(caretFrom(part, 1.08, grid, E9)).toEqual({ string: 8, timeSec: 1.1 });
    expect(caretFrom(part, 0.95, grid, E9)).toEqual({ string: 3, timeSec: 0.9 });
  });

  it("stays on the string where the hands are, where nothing begins", () => {
    const part = [at(0.5, [8, 10]), at(1, [6, 8]), at(4, [1])];
    expect(caretFrom(part, 2.02, grid, E9)).toEqual({ string: 6, timeSec: 2 });
  });

  it("passes over strings that the guitar lacks", () => {
    expect(caretFrom([at(1, [12]), at(0.5, [4])], 1, grid, E9)).toEqual({ string: 4, timeSec: 1 });
  });
});
