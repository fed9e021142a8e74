import { describe, expect, it } from "vitest";
import { nextWords, wayPlace, wayTraits, wayWords } from "@/lib/client/song/wayWords";
import type { PartEventFields } from "@/lib/document/commands/part";

const event = (startSec: number, changed: Partial<PartEventFields>): PartEventFields => ({
  ...{ startSec, endSec: startSec + 1, strings: [4, 5], fret: 3, changes: [], articulation: "pick" },
  ...changed,
});

describe("a way to play a passage, in words", () => {
  it("says where it lies and what it asks of bar and pedals", () => {
    const events = [
      event(0, {}),
      event(1, { changes: ["A"], articulation: "press" }),
      event(2, { fret: 8, strings: [5] }),
      event(2, { fret: 8, strings: [6] }),
      event(3, { fret: 10, articulation: "slide" }),
      event(4, { fret: 10 }),
    ];
    const traits = wayTraits({ events, cost: 0 });
    expect(wayPlace(traits)).toBe("frets 3 to 10");
    expect(wayWords(traits)).toBe(
      "3 picks, 1 slide, 1 pedal or lever move; the bar moves once between picks. With A.",
    );
  });

  it("says so where nothing moves, and where strings stay open", () => {
    const still = wayTraits({ events: [event(0, {}), event(1, {})], cost: 0 });
    expect(wayPlace(still)).toBe("fret 3");
    expect(wayWords(still)).toBe("2 picks; the bar stays between picks. No pedals or levers.");
    const one = wayTraits({ events: [event(0, { fret: 0 })], cost: 0 });
    expect(wayPlace(one)).toBe("open strings");
    expect(wayWords(one)).toBe("1 pick. No pedals or levers.");
  });

  it("says what a ringing string does next", () => {
    const from = { strings: [5], fret: 3, changes: ["A"] };
    expect(nextWords(from, { strings: [5], fret: 3, changes: ["A", "B"], articulation: "press" })).toBe(
      "then B pressed",
    );
    expect(nextWords(from, { strings: [5], fret: 3, changes: [], articulation: "release" })).toBe(
      "then A let off",
    );
    expect(nextWords(from, { strings: [5], fret: 5, changes: ["A"], articulation: "slide" })).toBe(
      "then slid to 5",
    );
    expect(nextWords(from, { strings: [5], fret: 5, changes: ["F"], articulation: "slidePress" })).toBe(
      "then slid to 5, F pressed, A let off",
    );
    expect(nextWords(from, { strings: [5], fret: 9, changes: [], articulation: "pick" })).toBe(
      "then picked anew",
    );
    const slant = { strings: [5, 6], fret: 3, frets: [4, 3], changes: [], articulation: "slide" as const };
    expect(nextWords(from, { ...slant, changes: ["A"] })).toBe("then slid to 4·3");
  });

  it("speaks of the hand, not of bar and pedals, where fingers stop the strings", () => {
    const shape = { strings: [2, 3, 4], fret: 2, frets: [3, 2, 4] };
    const traits = wayTraits({ events: [event(0, shape), event(1, { strings: [1], fret: 5 })], cost: 0 });
    expect(wayPlace(traits)).toBe("frets 2 to 5");
    expect(wayWords(traits, "fingers")).toBe("2 picks; the hand moves once between picks.");
  });
});
