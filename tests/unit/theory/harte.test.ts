import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatHarte, HarteError, parseHarte, SHORTHAND_DEGREES } from "@/lib/theory/harte";

describe("Harte chord labels", () => {
  // Worked examples and shorthand table of Harte, Sandler, Abdallah, Gomez, ISMIR 2005.
  it.each([
    ["C", [0, 4, 7], 0],
    ["C:maj", [0, 4, 7], 0],
    ["A:min/b3", [0, 4, 9], 0],
    ["C:(3,5)", [0, 4, 7], 0],
    ["C:min7", [0, 3, 7, 10], 0],
    ["C:maj(*3)", [0, 7], 0],
    ["D#:(b3,5,b7)", [1, 3, 6, 10], 3],
    ["C#:7/b7", [1, 5, 8, 11], 11],
    ["F:hdim7", [3, 5, 8, 11], 5],
    ["B:dim7", [2, 5, 8, 11], 11],
    ["G:sus4(b7,9)", [0, 2, 5, 7, 9], 7],
    ["Bb:maj/2", [2, 5, 10], 0],
  ])("%s", (label, pitchClasses, bass) => {
    const chord = parseHarte(label);
    expect(chord?.pitchClasses).toEqual(pitchClasses);
    expect(chord?.bassPitchClass).toBe(bass);
  });

  it("knows no chord", () => {
    expect(parseHarte("N")).toBeNull();
    expect(formatHarte(null)).toBe("N");
  });

  it("gives back what it wrote", () => {
    const shorthand = fc.constantFrom(
      ...(Object.keys(SHORTHAND_DEGREES) as (keyof typeof SHORTHAND_DEGREES)[]),
    );
    const parts = fc.record({
      rootName: fc.constantFrom("C", "F#", "Bb", "Ebb", "G##"),
      quality: fc.option(shorthand),
      extensions: fc.uniqueArray(fc.constantFrom("9", "b9", "#11", "*5"), { maxLength: 3 }),
      bass: fc.constantFrom("1", "b3", "5", "b7", "2"),
    });
    fc.assert(
      fc.property(parts, (chord) => {
        if (chord.quality === null && chord.extensions.length === 0) return;
        expect(parseHarte(formatHarte(chord))).toMatchObject(chord);
      }),
    );
  });

  it.each([
    "",
    "H:maj",
    "C:",
    "C:mjr",
    "C:maj(",
    "C:maj(x)",
    "C:maj/",
    "C:maj/19",
    "c:maj",
    "G:maj min",
    "X",
  ])("refuses %j", (label) => {
    expect(() => parseHarte(label)).toThrow(HarteError);
  });
});
