import { describe, expect, it } from "vitest";
import { guessWeeks, laneProgress, mondayOf } from "@/lib/client/lesson/guessHistory";
import { WHOLE_SONG } from "@/lib/document/records/covers";
import type { ShownGuess } from "@/lib/document/records/guesses";
import type { Comparison } from "@/lib/lesson/Comparison";

/** Guesses at home; `outcome` null for those that were not uncovered. */
function guess(by: string, at: string, outcome: Comparison | null, fields: Partial<ShownGuess> = {}) {
  const atMs = new Date(at).getTime();
  return {
    id: `${by} ${at}`,
    by,
    lane: "home",
    value: { tonic: "G", mode: "major" },
    target: WHOLE_SONG,
    startSec: 0,
    endSec: 8,
    fit: null,
    hintCount: 1,
    atMs,
    outcome: outcome && { atMs, comparison: outcome, answer: null },
    ...fields,
  } as ShownGuess;
}
const HEARD = { lane: "heard", value: { midis: [60] } } as Partial<ShownGuess>;

describe("how guesses went over weeks", () => {
  const learners = guessWeeks(
    [
      guess("stig", "2026-11-02T10:00", "fifth"),
      guess("stig", "2026-11-08T23:30", "other", { hintCount: 3 }),
      guess("ines", "2026-11-09T09:00", "same"),
      guess("stig", "2026-11-16T00:10", "near", HEARD),
      guess("stig", "2026-11-22T10:00", "enharmonic", { hintCount: 0 }),
      guess("stig", "2026-11-22T10:01", null),
      // Nothing stood there to compare with: it is no wrong guess.
      guess("stig", "2026-11-22T10:02", "none", { hintCount: 0 }),
    ],
    mondayOf,
  );

  it("is told learner by learner, who guessed last first, week by week and lane by lane", () => {
    const day = (text: string) => new Date(text).getTime();
    expect(learners).toEqual([
      {
        by: "stig",
        weeks: [
          { mondayMs: day("2026-11-16T00:00"), lane: "home", made: 3, told: 1, right: 1, hints: 1 },
          { mondayMs: day("2026-11-16T00:00"), lane: "heard", made: 1, told: 1, right: 0, hints: 1 },
          { mondayMs: day("2026-11-02T00:00"), lane: "home", made: 2, told: 2, right: 0, hints: 4 },
        ],
      },
      {
        by: "ines",
        weeks: [{ mondayMs: day("2026-11-09T00:00"), lane: "home", made: 1, told: 1, right: 1, hints: 1 }],
      },
    ]);
  });

  it("sets the first week beside the latest, lane by lane, where both have guesses that were uncovered", () => {
    const [stig, ines] = learners;
    expect(
      laneProgress(stig!.weeks).map(({ lane, first, latest }) => [lane, first.right, latest.right]),
    ).toEqual([["home", 0, 1]]);
    expect(laneProgress(ines!.weeks)).toEqual([]);
  });

  it("counts weeks from Monday on, over a change of the clock too", () => {
    // Sunday, 25 October 2026 has 25 hours where clocks go back, elsewhere 24 (common practice, no source).
    expect(new Date(mondayOf(new Date("2026-10-25T23:59").getTime())).getDate()).toBe(19);
    expect(new Date(mondayOf(new Date("2026-10-26T00:00").getTime())).getDate()).toBe(26);
  });
});
