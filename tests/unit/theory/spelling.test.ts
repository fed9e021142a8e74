import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Key } from "@/lib/theory/key";
import { midiToName, PitchNameError, parsePitchName, spellPitchClass } from "@/lib/theory/spelling";

const TONICS = [
  "C",
  "Db",
  "C#",
  "D",
  "Eb",
  "E",
  "F",
  "F#",
  "Gb",
  "G",
  "Ab",
  "A",
  "Bb",
  "B",
  "Cb",
  "G#",
  "D#",
  "A#",
];
const keys = fc.record({ tonic: fc.constantFrom(...TONICS), mode: fc.constantFrom("major", "minor") });

const major = (tonic: string): Key => ({ tonic, mode: "major" });

describe("spelling", () => {
  // Common practice, no source: the major scales as every primer prints them.
  it.each([
    ["C", "C D E F G A B"],
    ["G", "G A B C D E F#"],
    ["E", "E F# G# A B C# D#"],
    ["F", "F G A Bb C D E"],
    ["Eb", "Eb F G Ab Bb C D"],
    ["Gb", "Gb Ab Bb Cb Db Eb F"],
    ["F#", "F# G# A# B C# D# E#"],
  ])("spells the major scale on %s", (tonic, scale) => {
    const base = parsePitchName(tonic).pitchClass;
    const spelled = [0, 2, 4, 5, 7, 9, 11].map((step) => spellPitchClass(base + step, major(tonic)));
    expect(spelled.join(" ")).toBe(scale);
  });

  it("spells the scale of A minor with its raised notes", () => {
    const key: Key = { tonic: "A", mode: "minor" };
    const spelled = [0, 2, 3, 5, 7, 8, 10, 11].map((step) => spellPitchClass(9 + step, key));
    expect(spelled.join(" ")).toBe("A B C D E F G G#");
  });

  it("never writes a double accidental and never changes the pitch", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 127 }), keys, (midi, key) => {
        const name = midiToName(midi, key as Key);
        expect(name).toMatch(/^[A-G][b#]?-?\d+$/);
        expect(parsePitchName(name).midi).toBe(midi);
        expect(parsePitchName(spellPitchClass(midi, key as Key)).pitchClass).toBe(midi % 12);
      }),
    );
  });

  // Scientific pitch notation: C4 = 60, A4 = 69; the octave goes with the letter.
  it.each([
    [60, "C", "C4"],
    [69, "C", "A4"],
    [66, "G", "F#4"],
    [59, "Gb", "Cb4"],
    [60, "C#", "B#3"],
    [47, "E", "B2"],
  ])("names MIDI %i in %s as %s", (midi, tonic, name) => {
    expect(midiToName(midi, major(tonic))).toBe(name);
  });

  it("says what is wrong with a name it cannot read", () => {
    for (const text of ["", "H", "c", "G##b", "F#x", "♯"])
      expect(() => parsePitchName(text)).toThrow(PitchNameError);
  });
});
