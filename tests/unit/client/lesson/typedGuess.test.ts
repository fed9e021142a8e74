import { describe, expect, it } from "vitest";
import { askedGuess } from "@/lib/client/lesson/askedGuess";
import { guessText, guessTyped } from "@/lib/client/lesson/guessText";
import { playedGuess } from "@/lib/client/lesson/playedGuess";
import { typedGuess } from "@/lib/client/lesson/typedGuess";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { GuessLane } from "@/lib/lesson/GuessValue";

const G = { home: { tonic: "G", mode: "major" as const }, copedent: E9, near: 64 };
const UNSEEN = { ...G, home: null };
const read = (text: string, lane: GuessLane, by: typeof UNSEEN | typeof G = G) =>
  typedGuess(text, lane, by).value;

describe("a guess as it is typed", () => {
  it.each([
    ["A", { tonic: "A", mode: "major" }],
    ["f# minor", { tonic: "F#", mode: "minor" }],
    ["Em", { tonic: "E", mode: "minor" }],
    ["B♭ maj", { tonic: "Bb", mode: "major" }],
  ])("home: %s", (text, key) => {
    expect(read(text, "home", UNSEEN)).toEqual(key);
  });

  it("a chord by number where home is seen, by letters always", () => {
    expect(read("4", "changes")).toEqual({ label: "C:maj" });
    expect(read("D7", "changes", UNSEEN)).toEqual({ label: "D:7" });
    expect(read("G/B", "changes", UNSEEN)).toEqual({ label: "G:maj/3" });
    expect(() => read("4", "changes", UNSEEN)).toThrow(/Home is not seen/);
    expect(() => read("b7", "changes", UNSEEN)).toThrow(/Home is not seen/);
    expect(() => read("1 3", "heard", UNSEEN)).toThrow(/Home is not seen/);
  });

  it("notes by name, the lowest first, whatever order they were typed in", () => {
    expect(read("G4 B3", "heard", UNSEEN)).toEqual({ midis: [59, 67] });
    expect(read("1 3", "heard")).toEqual({ midis: [67, 71] });
    expect(() => read("", "heard")).toThrow(/one to three/);
  });

  it.each([
    ["5 6 fret 3 A B", { strings: [5, 6], fret: 3, changes: ["A", "B"] }],
    ["6+5 3AB", { strings: [5, 6], fret: 3, changes: ["A", "B"] }],
    ["4 10", { strings: [4], fret: 10, changes: [] }],
    ["4: 0 f", { strings: [4], fret: 0, changes: ["F"] }],
  ])("a place: %s", (text, place) => {
    expect(read(text, "places")).toEqual(place);
  });

  it("says what cannot be read", () => {
    expect(() => read("H", "home")).toThrow(/no home here/);
    expect(() => read("11 3", "places")).toThrow("This guitar has no string 11.");
    expect(() => read("5 3 Q", "places")).toThrow('This guitar has no pedal or lever "Q".');
    expect(() => read("5 99", "places")).toThrow("There is no fret 99.");
    expect(() => read("five", "places")).toThrow(/strings, fret and pedals/);
  });

  it("what is typed again reads as the same guess", () => {
    for (const [text, lane] of [
      ["Bbm", "home"],
      ["F#m7/A", "changes"],
      ["B3 G4", "heard"],
      ["5 6 fret 3 A B", "places"],
    ] as const) {
      const said = typedGuess(text, lane, UNSEEN);
      expect(typedGuess(guessTyped(said), lane, UNSEEN)).toEqual(said);
    }
  });

  it("reads in letters, never in numbers of home", () => {
    const texts = (["home", "changes", "heard", "places"] as const).map((lane) =>
      guessText(
        typedGuess({ home: "Em", changes: "D7", heard: "B3 G4", places: "5 6 3A" }[lane], lane, UNSEEN),
        null,
      ),
    );
    expect(texts).toEqual(["E minor", "D7", "B3 G4", "strings 5 6, fret 3, A"]);
  });
});

describe("a guess as it is played", () => {
  it("is the lowest note as home, with the third for its mode", () => {
    expect(playedGuess([57], "home", null)).toBe("A");
    expect(playedGuess([60, 57], "home", null)).toBe("Am");
  });

  it("is all notes as a chord", () => {
    expect(typedGuess(playedGuess([50, 54, 57, 60], "changes", null)!, "changes", UNSEEN).value).toEqual({
      label: "D:7",
    });
    expect(playedGuess([50], "changes", null)).toBe("D");
    expect(playedGuess([60, 61, 62], "changes", null)).toBeNull();
  });

  it("is its notes by name, and no place", () => {
    expect(playedGuess([67, 59], "heard", null)).toBe("B3 G4");
    expect(playedGuess([67], "places", null)).toBeNull();
  });
});

describe("a guess held against the record", () => {
  const stretch = { startSec: 4, endSec: 10 };
  it("is asked where it was guessed, notes for two seconds, and not past the end", () => {
    expect(askedGuess(typedGuess("D7", "changes", G), stretch, E9, 8)).toEqual({
      passage: { startSec: 4, endSec: 8 },
      guess: { kind: "chord", label: "D:7" },
    });
    expect(askedGuess(typedGuess("G4", "heard", G), stretch, E9, 60)?.passage.endSec).toBe(6);
    // String 5 of E9 is B3; at the third fret D4.
    expect(askedGuess(typedGuess("5 3", "places", G), stretch, E9, 60)?.guess).toEqual({
      kind: "notes",
      notes: [{ midi: 62 }],
    });
    expect(askedGuess(typedGuess("N", "changes", G), stretch, E9, 60)).toBeNull();
    expect(askedGuess(typedGuess("G", "home", G), { startSec: 9, endSec: 12 }, E9, 9)).toBeNull();
  });
});
