import { describe, expect, it } from "vitest";
import { FIT_ODDS } from "@/lib/fit/fittedOdds";
import { checkCalibration } from "../../quality/fit/checkCalibration";
import type { FitEvent } from "../../quality/fit/fitEvents";
import { judgedSets } from "../../quality/fit/fitModels";
import type { FitKind, JudgedFit } from "../../quality/fit/judgeFit";
import { fitsByWeights } from "../../quality/fit/leftOutFits";
import { isLeftOut, oddsWithout } from "../../quality/fit/oddsOf";
import { scoreFits } from "../../quality/fit/scoreFits";

const KNOWN = "ds-01";
const UNKNOWN = "never seen";

function judged(said: number, nearSaid: number, kind: FitKind = "pairs", role = "steel"): JudgedFit {
  const wins = said > nearSaid;
  const judgements = [
    { said, right: true, weight: 1 },
    { said: nearSaid, right: false, weight: 1 },
  ];
  return { kind, role, winsAll: wins, winsHearable: wins, judgements };
}

describe("near misses that cannot be heard", () => {
  it("are those whose notes all sound for more than half of the passage, as in the fitting", () => {
    const event = (share: number): FitEvent => ({
      ...{ role: "steel", startSec: 0, endSec: 1, notesMidi: [67], glided: false },
      soundingShare: new Map([
        [67, 1],
        [69, share],
      ]),
    });
    const isUnheard = (share: number) =>
      judgedSets({ event: event(share) }).find(({ notesMidi }) => notesMidi.join() === "69")!.allSound;
    expect([0, 0.04, 0.3, 0.5].map(isUnheard)).toEqual([false, false, false, false]);
    expect([0.51, 1].map(isUnheard)).toEqual([true, true]);
  });
});

describe("wins of the steel", () => {
  it("are counted over its single notes and pairs", () => {
    const fits = [
      judged(0.9, 0.1, "single notes"),
      judged(0.4, 0.6),
      judged(0.1, 0.9, "more notes"),
      judged(0.1, 0.9, "pairs", "guitar"),
    ];
    expect(scoreFits(fits)).toMatchObject({ fitSteelWin: 0.5, fitNotesWin: 0.25 });
  });
});

describe("calibration of fits", () => {
  const bounds = { sureRightAtLeast: 0.9, errorAtMost: 0.1 };
  const passes = (fits: readonly JudgedFit[]) =>
    checkCalibration("A", fits, bounds).map(({ passed }) => passed);
  const many = (count: number, fit: JudgedFit) => Array.from({ length: count }, () => fit);

  it("holds where nine in ten of what reads 0.9 are right, and says how many read so", () => {
    const fits = [...many(95, judged(0.95, 0.02)), ...many(5, judged(0.05, 0.95))];
    expect(passes(fits)).toEqual([true, true]);
    expect(checkCalibration("A", fits, bounds)[0]!.detail).toContain("95 of 100 readings");
  });

  it("fails where fewer are, and where said and right stand apart", () => {
    expect(passes([...many(80, judged(0.95, 0.02)), ...many(20, judged(0.05, 0.95))])).toEqual([
      false,
      false,
    ]);
    expect(passes([...many(60, judged(0.95, 0.7)), ...many(40, judged(0.7, 0.3))])).toEqual([true, false]);
  });

  it("fails where nothing reads so well, or nothing was judged", () => {
    expect(passes(many(100, judged(0.6, 0.4)))[0]).toBe(false);
    expect(passes([])).toEqual([false, false]);
  });
});

describe("weights that a record is judged by", () => {
  it("are those that were fitted without it, else those that ship, and it is told which", () => {
    expect([isLeftOut(KNOWN), isLeftOut(UNKNOWN)]).toEqual([true, false]);
    expect(oddsWithout(KNOWN)).not.toEqual(FIT_ODDS);
    expect(oddsWithout(UNKNOWN)).toBe(FIT_ODDS);
    const fit = judged(0.9, 0.1);
    const of = (id: string, fits: JudgedFit[]) => ({ subject: { id }, prediction: { fits } });
    const unheard = { subject: { id: UNKNOWN }, prediction: null };
    const told = fitsByWeights([of(KNOWN, [fit]), of(UNKNOWN, [fit, fit]), of("nothing asked", []), unheard]);
    expect(told).toEqual({ leftOut: [fit], leftOutCount: 1, shippedCount: 1 });
  });
});
