import { describe, expect, it } from "vitest";
import { mechanismOf } from "@/lib/hearing/notes/mechanism";

/** A string that is surely the steel's. */
const sure = (interval: number) => ({ interval, steel: 0.95 });

// Common practice, no source: a pedal moves one voice against a held one, the bar takes all strings along.
describe("what moved a string", () => {
  it.each([
    ["a pedal, where another is held", 2, [sure(0)], "pedal"],
    ["a pedal, where another goes the other way", 1, [sure(-1)], "pedal"],
    ["a pedal, where another moves by more", 1, [sure(2)], "pedal"],
    ["the bar, where another moves alike", -1, [sure(-1)], "bar"],
    ["the bar, where two others move alike", 3, [sure(3), sure(3)], "bar"],
    ["a pedal on two strings of three", 2, [sure(2), sure(0)], "pedal"],
    ["the bar, farther than any pedal pulls", 5, [], "bar"],
    ["not to be told of a string alone", 2, [], "unsure"],
    ["not to be told by what the band holds", 2, [{ interval: 0, steel: 0.02 }], "unsure"],
  ] as const)("%s", (_, interval, others, kind) => {
    expect(mechanismOf(interval, others, null)).toBe(kind);
  });

  it("counts strings that are off by less than half a semitone as moving alike", () => {
    expect(mechanismOf(2, [sure(2.3)], null)).toBe("bar");
    expect(mechanismOf(2, [sure(1.4)], null)).toBe("pedal");
  });

  it("follows the learned ear where nothing else tells, and what other strings do against a faint word of it", () => {
    const band = [{ interval: 0, steel: 0.02 }];
    expect(mechanismOf(2, band, 0.7)).toBe("pedal");
    expect(mechanismOf(2, band, 0.2)).toBe("bar");
    expect(mechanismOf(2, [], 0.7)).toBe("unsure");
    expect(mechanismOf(2, [], 0.95)).toBe("pedal");
    expect(mechanismOf(2, [sure(2)], 0.6)).toBe("bar");
    expect(mechanismOf(2, [sure(0)], 0.4)).toBe("pedal");
  });

  it("never takes for a pedal what goes farther than one pulls, whatever the learned ear says", () => {
    expect(mechanismOf(5, [], 1)).toBe("bar");
  });
});
