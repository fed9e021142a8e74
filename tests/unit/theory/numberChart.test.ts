import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseHarte, SHORTHAND_DEGREES } from "@/lib/theory/harte";
import type { Key } from "@/lib/theory/key";
import {
  ChordNumberError,
  chordToLetters,
  chordToNumber,
  chordToNumberText,
  formatNumber,
  numberToChord,
  parseNumber,
  relativeMajor,
} from "@/lib/theory/numberChart";

const G: Key = { tonic: "G", mode: "major" };
const C: Key = { tonic: "C", mode: "major" };
const Am: Key = { tonic: "A", mode: "minor" };
const Eb: Key = { tonic: "Eb", mode: "major" };

describe("chords as numbers of the key", () => {
  // Signs after the Nashville number system, en.wikipedia.org; slash as the bass's number, talkbass.com.
  // Which letter is which number: common practice, no source.
  it.each([
    ["G:maj", G, "1", "G"],
    ["C:maj", G, "4", "C"],
    ["A:min", G, "2-", "Am"],
    ["G:maj/3", G, "1/3", "G/B"],
    ["D:7", G, "57", "D7"],
    ["D:7/3", G, "57/7", "D7/F#"],
    ["F:maj", G, "b7", "F"],
    ["A:min/b3", G, "2-/4", "Am/C"],
    ["B:min7", G, "3-7", "Bm7"],
    ["F#:hdim7", G, "7-7b5", "F#m7b5"],
    ["C#:dim7", C, "#1o7", "C#dim7"],
    ["Db:maj7", C, "b2maj7", "Dbmaj7"],
    ["F#:dim", C, "#4o", "F#dim"],
    ["G:aug", C, "5+", "G+"],
    ["G:sus4", C, "5sus4", "Gsus4"],
    ["G:7(b9)", C, "57(b9)", "G7(b9)"],
    ["C:maj/b7", C, "1/b7", "C/Bb"],
    ["G#:maj", Eb, "4", "Ab"],
    ["A:min", Am, "1-", "Am"],
    ["C:maj", Am, "b3", "C"],
    ["E:7", Am, "57", "E7"],
    ["E:7/3", Am, "57/7", "E7/G#"],
    ["N", G, "N.C.", "N.C."],
  ])("%s in %o is %s, %s", (label, key, number, letters) => {
    expect(chordToNumberText(label, key)).toBe(number);
    expect(chordToLetters(label, key)).toBe(letters);
  });

  it("gives the parts that print sets apart", () => {
    expect(chordToNumber("F:7/3", G)).toEqual({ accidental: "b", degree: "7", quality: "7", bass: "2" });
  });

  it("counts from the relative major on request, home being 6-", () => {
    expect(relativeMajor(Am)).toEqual(C);
    expect(chordToNumberText("A:min", relativeMajor(Am))).toBe("6-");
  });

  it("reads other common signs for minor, diminished and accidentals", () => {
    expect(formatNumber(parseNumber("2–7"))).toBe("2-7");
    expect(formatNumber(parseNumber("6m"))).toBe("6-");
    expect(formatNumber(parseNumber("♭7"))).toBe("b7");
    expect(formatNumber(parseNumber("#4°7"))).toBe("#4o7");
    expect(formatNumber(parseNumber("1maj7"))).toBe("1maj7");
    expect(parseNumber("N.C.")).toBeNull();
  });

  it.each(["", "8", "0", "1/9", "1x", "b", "1(z)", "G"])("refuses %j", (text) => {
    expect(() => parseNumber(text)).toThrow(ChordNumberError);
  });

  const keys = fc.record({
    tonic: fc.constantFrom("C", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B", "C#", "G#"),
    mode: fc.constantFrom<Key["mode"]>("major", "minor"),
  });
  const roots = fc.constantFrom(
    "C",
    "C#",
    "Db",
    "D",
    "D#",
    "Eb",
    "E",
    "F",
    "F#",
    "Gb",
    "G",
    "G#",
    "Ab",
    "A",
    "A#",
    "Bb",
    "B",
  );
  const qualities = fc.constantFrom(
    ...Object.keys(SHORTHAND_DEGREES),
    "7(b9)",
    "maj(9)",
    "(3,5,#11)",
    "min(*5)",
  );
  const basses = fc.constantFrom("", "/3", "/b3", "/5", "/b7", "/7", "/2", "/4");

  it("comes back to the same notes from number to chord, in any key", () => {
    fc.assert(
      fc.property(roots, qualities, basses, keys, (root, quality, bass, key) => {
        const label = `${root}:${quality}${bass}`;
        const back = numberToChord(chordToNumberText(label, key), key);
        const { rootPitchClass, bassPitchClass, pitchClasses } = parseHarte(label)!;
        expect(parseHarte(back)).toMatchObject({ rootPitchClass, bassPitchClass, pitchClasses });
        expect(numberToChord(chordToNumberText(back, key), key)).toBe(back);
      }),
      { numRuns: 2000 },
    );
  });

  it("moves with the key: the same number names the same distance everywhere", () => {
    const numbers = fc.constantFrom(
      "1",
      "b2",
      "2-",
      "b3",
      "3-7",
      "4",
      "#4o7",
      "57",
      "b6",
      "6-",
      "b7",
      "7o",
      "1/3",
      "4/1",
    );
    fc.assert(
      fc.property(numbers, keys, keys, (number, one, two) => {
        const tonic = (key: Key) => parseHarte(`${key.tonic}:maj`)!.rootPitchClass;
        const step = (key: Key) =>
          (parseHarte(numberToChord(number, key))!.rootPitchClass - tonic(key) + 12) % 12;
        expect(step(one)).toBe(step(two));
      }),
    );
  });
});
