import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { hintChords } from "@/lib/lesson/hintChords";
import { hintKeys } from "@/lib/lesson/hintKeys";
import { hintNotes } from "@/lib/lesson/hintNotes";
import { hintPlaces } from "@/lib/lesson/hintPlaces";
import { intervalWords } from "@/lib/lesson/intervalWords";
import type { Key } from "@/lib/theory/key";

const ALONE = { before: null, bass: [], home: null };
const NOTES = { before: null, glides: [], chord: null };
const A_MAJOR: Key = { tonic: "A", mode: "major" };
const HOLDS = ["Your last guess holds: uncover it."];

describe("hints at home", () => {
  it("before a guess: the third, then the signs of the scale", () => {
    // A major has three sharps, E minor one: common theory, as in any table of key signatures.
    expect(hintKeys(A_MAJOR, null)).toEqual([
      "Hum the note on which it comes to rest, then the third above: it is large.",
      "Its scale has three sharps.",
    ]);
    expect(hintKeys({ tonic: "E", mode: "minor" }, null).at(-1)).toBe("Its scale has one sharp.");
    expect(hintKeys({ tonic: "Db", mode: "major" }, null).at(-1)).toBe("Its scale has five flats.");
    expect(hintKeys({ tonic: "C", mode: "major" }, null).at(-1)).toBe(
      "Its scale has neither sharps nor flats.",
    );
  });

  it("after a guess: how it stands to home, and which way it is nearer", () => {
    const relative = hintKeys(A_MAJOR, { tonic: "F#", mode: "minor" });
    expect(relative[1]).toContain("the same scale");
    expect(relative[2]).toContain("up from your guess");
    expect(hintKeys(A_MAJOR, { tonic: "A", mode: "minor" })[1]).toContain("listen to the third again");
    expect(hintKeys(A_MAJOR, { tonic: "B", mode: "major" })[1]).toContain("go down");
    expect(hintKeys(A_MAJOR, A_MAJOR)).toEqual(HOLDS);
  });
});

describe("hints at a chord", () => {
  it("begin with how the bass goes, and get plainer", () => {
    // E7 in A, after A: the bass walks A2 G#2 G2 F#2 F2 E2 by half steps.
    const hints = hintChords("E:7", "C:maj", {
      before: "A:maj",
      bass: [45, 44, 43, 42, 41, 40],
      home: A_MAJOR,
    });
    expect(hints).toEqual([
      "The bass moves by half steps down.",
      "It sounds major.",
      "Your guess has one note in common with it.",
      "Its root is that of the 1, the 4 or the 5.",
      "From the chord before, the root goes a fourth down.",
      "It has 4 different notes.",
    ]);
  });

  it("say what is right in the guess", () => {
    expect(hintChords("E:7", "E:maj", ALONE)[1]).toContain("triad is right");
    expect(hintChords("E:7", "E:min7", ALONE)[1]).toContain("root is right");
    expect(hintChords("E:maj/3", "E:maj", ALONE)).toContain("The chord is right: listen to the bass alone.");
    expect(hintChords("A:min7", "C:maj6", ALONE)[1]).toContain("You have its notes");
    expect(hintChords("E:7", "E:7", ALONE)).toEqual(HOLDS);
  });

  it("tell a bass that is of the chord from one that is not", () => {
    expect(hintChords("E:maj/3", null, ALONE)).toContain(
      "The bass plays another note of the chord than its root.",
    );
    expect(hintChords("E:maj/2", null, ALONE)).toContain("The bass plays a note that the chord has not.");
    expect(hintChords("E:maj", null, ALONE).join()).not.toContain("bass");
  });

  it("tell apart the ways of the bass", () => {
    const first = (bass: number[]) => hintChords("A:min", null, { ...ALONE, bass })[0];
    expect(first([45, 45])).toBe("The bass stays on one note.");
    expect(first([45, 47, 49])).toBe("The bass moves by steps up.");
    expect(first([45, 40, 45])).toBe("The bass leaps, up and down.");
    expect(first([45, 47, 40])).toBe("The bass mixes steps and leaps.");
    expect(first([45])).toBe("It sounds minor.");
  });

  it("say nothing of home where home is covered too", () => {
    expect(hintChords("E:7", null, ALONE).join()).not.toMatch(/home|the 1/);
  });
});

describe("hints at notes", () => {
  it("count them first, then lead from the guess", () => {
    // E4 and C#5, a large sixth; guessed B3 and G#4.
    expect(hintNotes([64, 73], [59, 68], { ...NOTES, glides: [2], chord: [9, 1, 4] })).toEqual([
      "Two notes, far apart.",
      "Higher than that.",
      "It moves up while it rings; name where it begins.",
      "All are notes of the chord.",
      "They lie a large sixth apart.",
      "The top note lies within a fourth of yours.",
    ]);
  });

  it("say what is right in the guess", () => {
    const second = (answer: number[], guess: number[]) => hintNotes(answer, guess, NOTES)[1];
    expect(second([64], [68])).toBe("Lower than that.");
    expect(second([64, 68], [64])).toBe("More notes than that.");
    expect(second([64], [64, 68])).toBe("Fewer notes than that.");
    expect(second([64, 68], [64, 69])).toBe("The lower note is right.");
    expect(second([64, 68], [63, 68])).toBe("The upper note is right.");
    expect(second([64], [52])).toBe("The right notes; listen to how high they lie.");
    expect(hintNotes([64], [64.3], NOTES)).toEqual(HOLDS);
  });
});

describe("hints at a place", () => {
  it("on E9: strings, pedals, then which way", () => {
    const answer = { strings: [5, 6], fret: 8, changes: ["A", "B"] };
    expect(hintPlaces(answer, { strings: [3, 4], fret: 3, changes: [] }, E9)).toEqual([
      "Two strings side by side.",
      // C4 (string 6 raised, at 8: F4) and A4 against G4 and B4.
      "By its notes: lower than that.",
      "2 pedals or levers are down.",
      "It lies higher up the neck.",
      "Take strings nearer to you.",
      "It lies in the middle of the neck.",
    ]);
  });

  it("say so where the notes are right in another place", () => {
    const hints = hintPlaces(
      { strings: [4], fret: 0, changes: [] },
      { strings: [5], fret: 5, changes: [] },
      E9,
    );
    expect(hints).toContain("The notes are right: look for them elsewhere on the neck.");
    expect(hints.at(-1)).toBe("It is played without bar or finger.");
  });
});

describe("no hint is the answer", () => {
  it("names no home, chord or note, whatever the guess", () => {
    const tonic = fc.constantFrom("C", "G", "D", "A", "E", "F", "Bb", "Eb", "F#");
    const someKey = fc.record({ tonic, mode: fc.constantFrom("major" as const, "minor" as const) });
    const label = fc
      .tuple(tonic, fc.constantFrom("maj", "min", "7", "sus4", "dim"))
      .map((parts) => parts.join(":"));
    const midis = fc.uniqueArray(fc.integer({ min: 50, max: 80 }), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(someKey, someKey, label, label, midis, midis, (home, other, chord, wrong, notes, guess) => {
        const hints = [
          ...hintKeys(home, other),
          ...hintChords(chord, wrong, { before: wrong, bass: notes, home: other }),
          ...hintNotes(notes, guess, { before: guess[0]!, glides: [1], chord: [0, 4, 7] }),
        ];
        expect(hints.length).toBeGreaterThan(2);
        for (const hint of hints) {
          // Note names, a letter with or without a sign; the 1, 4 and 5 are always named together.
          expect(hint.replace("the 1, the 4 or the 5", "")).not.toMatch(/\b[A-H][b#]?\d?\b/);
        }
        expect(new Set(hints.filter((hint) => hint !== HOLDS[0])).size).toBe(
          hints.filter((hint) => hint !== HOLDS[0]).length,
        );
      }),
      { numRuns: 300 },
    );
  });

  it("distances are called as players call them", () => {
    expect([1, -5, 12, 16, 24].map(intervalWords)).toEqual([
      "a half step",
      "a fourth",
      "an octave",
      "an octave and a large third",
      "2 octaves",
    ]);
  });
});
