import { describe, expect, it } from "vitest";
import type { NotesFit } from "@/lib/fit/FitAnswer";
import { verdictOf } from "@/lib/fit/fitVerdict";
import { changeWords, fitText, fitWords, nearestWords, verdictWords } from "@/lib/fit/fitWords";
import type { Difference } from "@/lib/fit/nearMisses";

const lower: Difference = { kind: "moved", midi: null, by: -1 };

function answer(fit: number, nearFit: number, change: Difference, notesMidi = [67]): NotesFit {
  return { kind: "notes", notesMidi, fit, perNote: [], nearest: [{ notesMidi: [66], change, fit: nearFit }] };
}

describe("fit in words", () => {
  it("says the sentence of the bench", () => {
    const said = (fit: NotesFit) => `${fitWords(fit.fit)}; ${nearestWords(fit)[0]}`;
    expect(said(answer(0.91, 0.22, lower))).toBe("fits; a half step lower reads 0.22");
    expect(said(answer(0.1, 0.8, lower))).toBe("does not fit; a half step lower reads 0.80");
  });

  it("names the note that is changed, by the home, where there are several", () => {
    const key = { tonic: "Eb", mode: "major" } as const;
    expect(changeWords({ kind: "moved", midi: 70, by: 2 }, [67, 70], { key })).toBe(
      "Bb4 a whole step higher",
    );
    expect(changeWords(lower, [67, 70], { key })).toBe("all a half step lower");
    expect(changeWords({ kind: "without", midi: 70, which: "top" }, [67, 70])).toBe("without the top note");
    expect(changeWords({ kind: "with", midi: 79 }, [67, 70])).toBe("with G5 as well");
  });

  it("is never said to be certain", () => {
    expect([fitText(1), fitText(0), fitText(0.987)]).toEqual(["0.99", "0.01", "0.99"]);
  });

  it("tells what reads low, high, in the wrong octave, missing or extra, and what cannot be told", () => {
    const kindOf = (change: Difference) => verdictOf(answer(0.2, 0.9, change)).kind;
    expect(kindOf(lower)).toBe("high");
    expect(kindOf({ kind: "moved", midi: 67, by: 2 })).toBe("low");
    expect(kindOf({ kind: "moved", midi: 67, by: 12 })).toBe("octave");
    expect(kindOf({ kind: "with", midi: 71 })).toBe("missing");
    expect(kindOf({ kind: "without", midi: 71, which: "top" })).toBe("extra");
    expect(verdictOf(answer(0.2, 0.3, lower)).kind).toBe("unclear");
    expect(verdictOf(answer(0.9, 0.92, lower)).kind).toBe("fits");
    expect(verdictWords(verdictOf(answer(0.2, 0.81, lower)), [67])).toBe(
      "written too high: a half step lower reads 0.81",
    );
  });
});
