import { describe, expect, it } from "vitest";
import { takeStrokes } from "@/lib/client/takes/takeStrokes";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import type { PartEvent } from "@/lib/notation/PartEvent";

const e9 = findCopedent("e9")!;

function event(id: string, startSec: number, more: Partial<PartEvent> = {}): PartEvent {
  return {
    ...{ id, startSec, endSec: startSec + 1, strings: [5], fret: 3, changes: [], articulation: "pick" },
    ...more,
  };
}

describe("strokes of a part", () => {
  it("are what is picked together; presses are glides of the stroke that rings, ties are nothing", () => {
    const part = [
      event("a", 0, { strings: [5, 8], endSec: 2 }),
      event("b", 1, { strings: [5], changes: ["A"], articulation: "press" }),
      event("c", 2, { strings: [8], articulation: "tie" }),
      event("d", 3, { strings: [4] }),
      event("e", 3.01, { strings: [6] }),
    ];
    const strokes = takeStrokes(part, e9);
    expect(strokes.map(({ eventId, startSec }) => [eventId, startSec])).toEqual([
      ["a", 0],
      ["d", 3],
    ]);
    // String 5 of E9 is B3, 8 is E3 (the usual tuning); pedal A raises 5 by a whole step.
    const [five, eight] = [...strokes[0]!.notes].sort((a, b) => b.midi - a.midi);
    expect(five).toMatchObject({ midi: 62, glides: [{ eventId: "b", toMidi: 64, startSec: 1 }] });
    expect(eight).toMatchObject({ midi: 55, glides: [] });
    expect(strokes[1]!.notes).toHaveLength(2);
  });

  it("are picks where a slide finds nothing that rings", () => {
    const strokes = takeStrokes([event("a", 0), event("b", 4, { articulation: "slide", fret: 5 })], e9);
    expect(strokes.map(({ eventId }) => eventId)).toEqual(["a", "b"]);
  });

  it("are none of an empty part", () => {
    expect(takeStrokes([], e9)).toEqual([]);
  });
});
