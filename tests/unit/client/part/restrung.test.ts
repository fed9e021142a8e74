import { describe, expect, it } from "vitest";
import { restrungEvents } from "@/lib/client/song/restrungEvents";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { E9 } from "@/lib/instrument/copedents/e9";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { shown } from "./anyPart";

const restrung = (events: ShownPart[], rows: number, part = events) => restrungEvents(events, rows, E9, part);

describe("events drawn across the strings", () => {
  it("keep a single note at the fret where its new string sounds it", () => {
    // E9: string 4 is E4, string 5 B3, five half steps lower.
    const note = shown("a", 1, { strings: [4], fret: 3 });
    const { edits, keepsNotes } = restrung([note], 1)!;
    expect(keepsNotes).toBe(true);
    expect(edits.get("a")).toMatchObject({ strings: [5], fret: 8 });
    expect(stoppedPitches(E9, { ...note, ...edits.get("a") })).toEqual(stoppedPitches(E9, note));
  });

  it("count in the pedals that are down", () => {
    // A raises string 5 to C#: the same note lies two frets lower than without.
    const note = shown("a", 1, { strings: [4], fret: 3, changes: ["A"] });
    expect(restrung([note], 1)!.edits.get("a")).toMatchObject({ fret: 6, changes: ["A"] });
  });

  it("keep their frets where the neck has not all notes, or one straight bar has not", () => {
    const low = restrung([shown("a", 1, { strings: [5], fret: 3 })], -1)!;
    expect([low.keepsNotes, low.edits.get("a")]).toMatchObject([false, { strings: [4], fret: 3 }]);
    // 4 and 5 are a fourth apart, 5 and 6 a minor third.
    const pair = restrung([shown("a", 1)], 1)!;
    expect([pair.keepsNotes, pair.edits.get("a")]).toMatchObject([false, { strings: [5, 6], fret: 3 }]);
    // One that cannot keeps all at their frets.
    const both = restrung([shown("a", 1, { strings: [4] }), shown("b", 2)], 1)!;
    expect(both.edits.get("a")).toMatchObject({ strings: [5], fret: 3 });
  });

  it("go no further than the neck", () => {
    expect(restrung([shown("a", 1)], -9)).toMatchObject({ rows: -3 });
    expect(restrung([shown("a", 1, { strings: [1, 5] })], -1)).toBeNull();
  });

  it("are picked where their new string did not sound before, and sound on where it did", () => {
    const part = [
      shown("before", 1, { strings: [4], endSec: 2 }),
      shown("a", 2, { strings: [4], changes: ["F"], articulation: "press" }),
    ];
    expect(restrung([part[1]!], 1, part)!.edits.get("a")!.articulation).toBe("pick");
    expect(restrung(part, 1)!.edits.get("a")!.articulation).not.toBe("pick");
  });
});
