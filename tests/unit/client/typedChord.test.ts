import { describe, expect, it } from "vitest";
import { TypedChordError, typedChord } from "@/lib/client/song/typedChord";
import type { Key } from "@/lib/theory/key";

const G: Key = { tonic: "G", mode: "major" };

// Labels in the syntax of Harte et al. (ISMIR 2005); how players type chords is common practice, no source.
describe("a typed chord", () => {
  it.each([
    ["4", "C:maj"],
    ["2-", "A:min"],
    ["57", "D:7"],
    ["5/7", "D:maj/3"],
    ["b7", "F:maj"],
    ["1/3", "G:maj/3"],
    ["6-7", "E:min7"],
  ])("reads %s in G as a number of the key", (typed, label) => {
    expect(typedChord(typed, G)).toBe(label);
  });

  it.each([
    ["D7", "D:7"],
    ["G/B", "G:maj/3"],
    ["Am", "A:min"],
    ["a-7", "A:min7"],
    ["Ebmaj7", "Eb:maj7"],
    ["F#m7b5", "F#:hdim7"],
    ["bb", "Bb:maj"],
    ["C/Bb", "C:maj/b7"],
    ["D:7", "D:7"],
  ])("reads %s as letters", (typed, label) => {
    expect(typedChord(typed, G)).toBe(label);
  });

  it.each(["N", "n", "N.C.", "nc"])("reads %s as no chord", (typed) => {
    expect(typedChord(typed, G)).toBe("N");
  });

  it.each(["8", "H", "Gx", "4/9", "hello"])("says that %s is no chord", (typed) => {
    expect(() => typedChord(typed, G)).toThrow(TypedChordError);
  });
});
