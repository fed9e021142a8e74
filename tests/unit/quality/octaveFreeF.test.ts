import { describe, expect, it } from "vitest";
import { octaveFreeF } from "../../quality/metrics/octaveFreeF";

const note = (startSec: number, midi: number) => ({ startSec, endSec: startSec + 0.4, midi });

describe("notes with octaves told alike", () => {
  it("counts another octave as right, another pitch class or a late onset not", () => {
    const reference = [note(0, 36), note(1, 43), note(2, 35), note(3, 40)];
    expect(octaveFreeF(reference, reference)).toBe(1);
    expect(octaveFreeF(reference, [note(0, 48), note(1.04, 43), note(2, 47), note(3, 28)])).toBe(1);
    expect(octaveFreeF(reference, [note(0, 37), note(1.06, 43), note(2, 36), note(3, 40)])).toBe(0.25);
  });
});
