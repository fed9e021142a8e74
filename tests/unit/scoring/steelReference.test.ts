import { describe, expect, it } from "vitest";
import { type KnownNote, steelReference } from "@/lib/scoring/steelReference";

function note(startSec: number, midi: number, glides: [number, number, "pedal" | "bar" | "unsure"][] = []) {
  return {
    ...{ startSec, endSec: startSec + 2, midi },
    glides: glides.map(([atSec, toMidi, kind]) => ({ atSec, toMidi, kind, durationSec: 0.1 })),
  } satisfies KnownNote;
}
const clear = (notes: readonly KnownNote[]) => steelReference(notes).glides.map((each) => each.kindIsClear);

describe("known notes of the steel as a reference", () => {
  it("are picks, and an arrival where each glide ends", () => {
    const { notes, glides } = steelReference([
      note(1, 59, [
        [1.5, 61, "pedal"],
        [2, 59, "unsure"],
      ]),
    ]);
    expect(notes).toEqual([
      { startSec: 1, endSec: 3, midi: 59, kind: "attack", role: "steel" },
      { startSec: 1.5, endSec: 3, midi: 61, kind: "slide", role: "steel" },
      { startSec: 2, endSec: 3, midi: 59, kind: "slide", role: "steel" },
    ]);
    expect(glides.map(({ atSec, toMidi, kind }) => [atSec, toMidi, kind])).toEqual([
      [1.5, 61, "pedal"],
      [2, 59, null],
    ]);
  });

  it("tell pedal from bar only where several strings sound, and move alike or not as the one or the other does", () => {
    expect(clear([note(1, 59, [[2, 61, "pedal"]]), note(1, 64)])).toEqual([true]);
    // Alone nobody can tell; nor where the other has ended.
    expect(clear([note(1, 59, [[2, 61, "pedal"]])])).toEqual([false]);
    expect(clear([note(1, 59, [[2.5, 61, "pedal"]]), note(0.2, 64)])).toEqual([false]);
    expect(clear([note(1, 59, [[2, 61, "bar"]]), note(1, 64, [[2.05, 66, "bar"]])])).toEqual([true, true]);
    // Two pedals that move two strings alike sound as the bar does.
    expect(clear([note(1, 59, [[2, 61, "pedal"]]), note(1, 64, [[2, 66, "pedal"]])])).toEqual([false, false]);
    expect(clear([note(1, 59, [[2, 61, "pedal"]]), note(1, 64, [[2, 65, "pedal"]])])).toEqual([true, true]);
    expect(clear([note(1, 59, [[2, 61, "unsure"]]), note(1, 64)])).toEqual([false]);
  });
});
