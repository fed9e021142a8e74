import fc from "fast-check";
import { Chord } from "tonal";
import { describe, expect, it } from "vitest";
import { formatHarte, isShorthand, parseHarte, SHORTHAND_DEGREES } from "@/lib/theory/harte";
import { C_MAJOR } from "@/lib/theory/key";
import { nameChord } from "@/lib/theory/nameChord";
import { parsePitchName, spellPitchClass } from "@/lib/theory/spelling";
import { withinOctave } from "@/lib/units/pitch";

const labels = (...notes: string[]) =>
  nameChord(notes.map((note) => parsePitchName(note).pitchClass)).map(({ root, quality, extensions }) =>
    formatHarte({ rootName: spellPitchClass(root, C_MAJOR), quality, extensions, bass: "1" }),
  );
/** Shorthands of up to four notes, of which other sets of notes can be told apart. */
const SMALL = Object.keys(SHORTHAND_DEGREES)
  .filter(isShorthand)
  .filter((shorthand) => SHORTHAND_DEGREES[shorthand].length <= 4);

describe("naming a chord", () => {
  it("finds one name, or all that are as plain", () => {
    expect(labels("G", "B", "D")).toEqual(["G:maj"]);
    expect(labels("A", "C", "E", "G")).toEqual(["C:maj6", "A:min7"]);
    expect(labels("C", "E", "G#")).toEqual(["C:aug", "E:aug", "Ab:aug"]);
    expect(labels("D", "F", "G#", "B")).toEqual(["D:dim7", "F:dim7", "Ab:dim7", "B:dim7"]);
    expect(labels("D", "G", "A")).toEqual(["D:sus4", "G:sus2"]);
    expect(labels("B", "D", "F")).toEqual(["B:dim", "G:7(*1)"]);
    expect(labels("C", "G")).toEqual(["C:5"]);
  });

  it("says what is left out and what is added", () => {
    expect(labels("B", "D#", "A")).toEqual(["B:7(*5)"]);
    expect(labels("G", "B", "D", "A")).toEqual(["G:maj(9)"]);
    expect(labels("D", "G", "A", "C")).toEqual(["D:sus4(b7)"]);
    expect(labels("A", "C#", "E", "G", "C")).toEqual(["A:7(#9)"]);
  });

  it("finds none for what is no chord", () => {
    expect(labels("C", "C#", "D", "D#")).toEqual([]);
    expect(nameChord([])).toEqual([]);
  });

  it("finds every chord by its own notes, on every root", () => {
    for (const quality of SMALL)
      for (let root = 0; root < 12; root += 1) {
        const label = formatHarte({
          rootName: spellPitchClass(root, C_MAJOR),
          quality,
          extensions: [],
          bass: "1",
        });
        const notes = parseHarte(label)?.pitchClasses ?? [];
        expect(nameChord(notes)).toContainEqual({ root, quality, extensions: [] });
      }
  });

  it("gives names that spell the notes, and the same moved by half steps", () => {
    const classes = fc.uniqueArray(fc.integer({ min: 0, max: 11 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(classes, fc.integer({ min: 1, max: 11 }), (notes, by) => {
        const names = nameChord(notes);
        for (const { root, quality, extensions } of names) {
          const label = formatHarte({
            rootName: spellPitchClass(root, C_MAJOR),
            quality,
            extensions,
            bass: "1",
          });
          expect(parseHarte(label)?.pitchClasses).toEqual(notes.toSorted((a, b) => a - b));
        }
        const write = (all: typeof names, more: number) =>
          all.map((name) => `${withinOctave(name.root + more)} ${name.quality} ${name.extensions}`).sort();
        expect(write(nameChord(notes.map((note) => note + by)), 0)).toEqual(write(names, by));
      }),
    );
  });

  // tonal is a library of its own for this; it names by a longer table and its own words, so triads are compared.
  it("agrees with tonal on triads", () => {
    for (const [notes, name] of [
      [["G", "B", "D"], "GM"],
      [["A", "C", "E"], "Am"],
      [["B", "D", "F"], "Bdim"],
      [["C", "E", "G#"], "Caug"],
    ] as const) {
      expect(Chord.detect([...notes])[0]).toBe(name);
      expect(nameChord(notes.map((note) => parsePitchName(note).pitchClass))[0]?.root).toBe(
        parsePitchName(name[0] ?? "").pitchClass,
      );
    }
  });
});
