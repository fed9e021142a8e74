import { describe, expect, it } from "vitest";
import { plainCombinations } from "@/lib/client/copedents/plainCombinations";
import { printedChord } from "@/lib/client/copedents/printedChord";
import { everyCombinationChord } from "@/lib/instrument/combinationChord";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { Key } from "@/lib/theory/key";

const E: Key = { tonic: "E", mode: "major" };

describe("chords of combinations in print", () => {
  it.each([
    // domain.md 2.1: what each position gives at fret 0 (b0b.com, understanding E9th), and 2.2 the frets for the keys.
    ["E:maj", 0, { degree: "1", quality: "", letters: "E" }],
    ["A:maj", 0, { degree: "4", quality: "", letters: "A" }],
    ["A:maj", 3, { degree: "4", quality: "", letters: "C" }],
    ["C#:min", 3, { degree: "6", quality: "−", letters: "Em" }],
    ["G#:min", 12, { degree: "3", quality: "−", letters: "G♯m" }],
  ] as const)("%s at fret %i", (label, fret, shown) => {
    expect(printedChord(label, fret, E)).toEqual({ ...shown, without: "" });
  });

  it("says in words what a chord goes without, and counts nothing where there is no home", () => {
    expect(printedChord("B:7(*5)", 0, E)).toEqual({
      degree: "5",
      quality: "7",
      letters: "B7",
      without: "no 5",
    });
    expect(printedChord("C#:7(*1)", 0, E).without).toBe("no root");
    expect(printedChord("G:maj", 2, null)).toMatchObject({ degree: null, letters: "A" });
  });

  it("shows the positions that are taught first, and none twice over", () => {
    const plain = plainCombinations(E9, everyCombinationChord(E9));
    const shown = new Map(plain.map(({ changes, names }) => [changes.join(""), names[0]?.label]));
    // domain.md 2.1, after b0b.com and howcast.com lesson 512264
    expect(shown.get("")).toBe("E:maj");
    expect(shown.get("AB")).toBe("A:maj");
    expect(shown.get("AF")).toBe("C#:maj");
    expect(shown.get("A")).toBe("C#:min");
    expect(shown.get("E")).toBe("G#:min");
    expect(shown.get("ABV")).toBe("A:min");
    expect(shown.has("BC")).toBe(true);
    // The lever on string 2 does nothing to the strings of the grips.
    expect([...shown.keys()].filter((changes) => changes.includes("D"))).toEqual([]);
    expect(plain.length).toBeLessThan(60);
  });
});
