import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { compareChords } from "@/lib/lesson/compareChords";
import { compareKeys } from "@/lib/lesson/compareKeys";
import { compareNotes } from "@/lib/lesson/compareNotes";
import { comparePlaces } from "@/lib/lesson/comparePlaces";
import type { Mode } from "@/lib/theory/key";

function key(text: string) {
  const [tonic = "C", mode = "major"] = text.split(" ");
  return { tonic, mode: mode as Mode };
}
const place = (strings: number[], fret: number, changes: string[] = []) => ({ strings, fret, changes });

describe("a guessed home beside the answer", () => {
  it.each([
    ["G major", "G major", "same"],
    ["Gb major", "F# major", "enharmonic"],
    ["E minor", "G major", "relative"],
    ["G major", "E minor", "relative"],
    ["A minor", "A major", "parallel"],
    ["D major", "G major", "fifth"],
    ["C major", "G major", "fifth"],
    // On the third, and on the sixth with the small third: no relative of G.
    ["B minor", "G major", "other"],
    ["E major", "G major", "other"],
    ["A major", "G major", "other"],
  ])("%s for %s: %s", (guess, answer, comparison) => {
    expect(compareKeys(key(guess), key(answer))).toBe(comparison);
  });
});

describe("a guessed chord beside the answer", () => {
  it.each([
    ["G:maj", "G:maj", "same"],
    ["G", "G:maj", "same"],
    ["Ab:min", "G#:min", "enharmonic"],
    ["G:maj", "G:maj/3", "bass"],
    ["G:maj", "G:7", "added"],
    ["G:maj6", "G:maj", "added"],
    ["G:min", "G:maj", "kind"],
    ["G:sus4", "G:maj", "kind"],
    // C6 and Am7 are the same four notes.
    ["C:maj6", "A:min7", "sameNotes"],
    ["E:min", "G:maj", "relative"],
    ["G:maj", "E:min", "relative"],
    ["D:maj", "G:maj", "fifth"],
    ["C:maj", "G:maj", "fifth"],
    ["A:maj", "G:maj", "other"],
    ["N", "N", "same"],
    ["N", "G:maj", "other"],
    ["G:maj", "N", "other"],
  ])("%s for %s: %s", (guess, answer, comparison) => {
    expect(compareChords(guess, answer)).toBe(comparison);
  });
});

describe("guessed notes beside the answer", () => {
  it.each([
    [[64], [64.2], "same"],
    [[68, 64], [64, 68], "same"],
    [[52], [64], "octave"],
    [[64, 56], [64, 68], "octave"],
    [[65], [64], "near"],
    [[66, 70], [64, 68], "near"],
    [[64, 71], [64, 68], "part"],
    [[64, 68, 71], [64, 68], "more"],
    [[64], [64, 68], "fewer"],
    [[70], [64], "other"],
    [[65, 72], [64, 68], "other"],
  ])("%j for %j: %s", (guess, answer, comparison) => {
    expect(compareNotes(guess, answer)).toBe(comparison);
  });
});

describe("a guessed place beside the answer, on E9", () => {
  // Open E9: string 3 is G#4, 4 E4, 5 B3, 6 G#3, 8 E3 (tests/fixtures/steel/tunings.json); A raises 5 by a whole step.
  it.each([
    [place([4, 5], 3), place([5, 4], 3), "same"],
    // B3 raised a whole step by A at 0 is C#4: string 5 open two frets up.
    [place([5], 2), place([5], 0, ["A"]), "string"],
    // E4 on string 4 open; string 5 at fret 5.
    [place([5], 5), place([4], 0), "string"],
    [place([4, 5], 4), place([4, 5], 3), "fret"],
    [place([5, 6], 3, ["A"]), place([5, 6], 3, ["A", "B"]), "pedals"],
    [place([8], 3), place([4], 3), "octave"],
    [place([3], 7), place([4], 3), "other"],
  ])("%j for %j: %s", (guess, answer, comparison) => {
    expect(comparePlaces(guess, answer, E9)).toBe(comparison);
  });

  it("a straight bar where the strings lie at frets of their own is another fret", () => {
    // Strings 4 and 5 at 3 and 4: G4 and D#4; straight at 3 they give G4 and D4.
    expect(comparePlaces(place([4, 5], 3), place([4, 5], 3), E9, [67, 63])).toBe("fret");
  });
});
