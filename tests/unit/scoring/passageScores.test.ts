import { describe, expect, it } from "vitest";
import { glideScore } from "@/lib/scoring/glideScore";
import { noteScore, type ReferenceNote } from "@/lib/scoring/noteScore";

describe("the scores of a passage", () => {
  it("count slides as optional, leads and pairs apart", () => {
    const note = (
      startSec: number,
      midi: number,
      kind: ReferenceNote["kind"],
      role: string,
    ): ReferenceNote => {
      return { startSec, endSec: startSec + 1, midi, kind, role };
    };
    const reference = [
      note(1, 60, "attack", "steel"),
      note(1.01, 64, "attack", "steel"),
      note(2, 48, "attack", "bass"),
      note(3, 66, "slide", "steel"),
      note(9, 60, "attack", "steel"),
    ];
    const estimate = [note(1.04, 60.3, "attack", ""), note(2, 49, "attack", ""), note(3.1, 66, "attack", "")];
    const score = noteScore(reference, estimate, { startSec: 0, endSec: 5 });
    expect(score).toMatchObject({
      precision: 1 / 2,
      recall: 1 / 3,
      slideRecall: 1,
      leadRecall: 1 / 2,
      dyadRate: 0,
    });
  });

  it("match glides and their kinds", () => {
    const reference = [
      { atSec: 1, toMidi: 66, kind: "pedal" as const, kindIsClear: true },
      { atSec: 2, toMidi: 70, kind: "bar" as const, kindIsClear: false },
    ];
    const estimate = [
      { atSec: 1.1, toMidi: 66.2, kind: "pedal" as const },
      { atSec: 2, toMidi: 70, kind: "pedal" as const },
      { atSec: 4, toMidi: 60, kind: "bar" as const },
    ];
    expect(glideScore(reference, estimate)).toEqual({
      recall: 1,
      precision: 2 / 3,
      mechanism: 1 / 2,
      mechanismClear: 1,
      kindOfFound: 1 / 2,
    });
    expect(glideScore([], estimate)).toBeNull();
  });
});
