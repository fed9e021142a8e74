import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { PartEvent } from "@/lib/notation/PartEvent";
import { soundingPitches } from "@/lib/notation/soundingPitches";

const event = (id: string, startSec: number, more: Partial<PartEvent> = {}): PartEvent => ({
  ...{ id, startSec, endSec: startSec + 1, strings: [5], fret: 5, changes: [], articulation: "pick" },
  ...more,
});

describe("the pitches that an event sounds", () => {
  const harmonic = event("a", 0, { techniques: ["harmonic"] });
  const pressed = event("b", 1, { changes: ["A"], articulation: "press" });
  const pitchOf = (one: PartEvent, part: PartEvent[]) => soundingPitches(E9, one, part)[0];

  // String 5 is B3, 59; A raises it by a whole step (domain sections 1.1 and 1.2).
  it("lie an octave up where it is a harmonic, or goes on from one", () => {
    const part = [harmonic, pressed, event("c", 2, { articulation: "tie", changes: ["A"] }), event("d", 3)];
    expect(part.map((each) => pitchOf(each, part))).toEqual([76, 78, 78, 64]);
  });

  it("do not where the harmonic was stopped before, or another string rang", () => {
    const stopped = { ...harmonic, techniques: ["harmonic", "block"] as const };
    expect(pitchOf(pressed, [stopped, pressed])).toBe(66);
    expect(pitchOf(pressed, [{ ...harmonic, strings: [8] }, pressed])).toBe(66);
  });
});
