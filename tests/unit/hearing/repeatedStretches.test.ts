import { describe, expect, it } from "vitest";
import { hearChanges } from "@/lib/hearing/changes";
import { KEY_STATES } from "@/lib/hearing/keyStates";
import { sharedBass, sharedLikelihoods } from "@/lib/hearing/repeatedStretches";
import { evenBars, labelsIn, speakingFor, stateOf, sureOf } from "./score";

describe("stretches that repeat one another", () => {
  // Bars of C, F, then the same a whole step up, of which the second is hardly heard.
  const stretches = evenBars(16);
  const written = [
    [0, "C:maj"],
    [4, "F:maj"],
    [8, "D:maj"],
    [12, "G:maj"],
  ] as const;
  const clear = speakingFor(labelsIn(stretches, written), 12);
  const blurred = clear.map((row, i) => (i < 24 ? row : speakingFor(["E:min"], 4)[0]!));
  const groups = Array.from({ length: 15 }, (_, i) => [
    { stretch: i, semitones: 0, takes: true },
    { stretch: 16 + i, semitones: 2, takes: true },
  ]);
  const heard = (likelihoods: Float64Array[]): number[] =>
    hearChanges(likelihoods, stretches, sureOf(0, KEY_STATES.length, likelihoods.length)).runs.map(
      ({ state }) => state,
    );

  it("lend one another what they hear, each in its own key", () => {
    expect(heard(blurred)).not.toEqual(written.map(([, label]) => stateOf(label)));
    expect(heard(sharedLikelihoods(blurred, groups))).toEqual(written.map(([, label]) => stateOf(label)));
  });

  it("leave all others, and what was given, as they are", () => {
    const before = blurred.map((row) => Float64Array.from(row));
    const after = sharedLikelihoods(blurred, groups.slice(8));
    expect(blurred).toEqual(before);
    for (let i = 0; i < 8; i++) expect(after[i]).toEqual(before[i]);
    expect(after[8]).not.toEqual(before[8]);
  });

  it("only give where they are not to take", () => {
    const giving = groups.map((group) => group.map((one, i) => ({ ...one, takes: i === 1 })));
    const after = sharedLikelihoods(blurred, giving);
    expect(after[0]).toEqual(blurred[0]);
    expect(after[16]).toEqual(sharedLikelihoods(blurred, groups)[16]);
  });

  it("share their basses too, and these stay chances", () => {
    const bass = Array.from({ length: 2 }, (_, i) => {
      const row = new Float64Array(13);
      row[i === 0 ? 11 : 12] = 1;
      return row;
    });
    const [first, second] = sharedBass(bass, [
      [
        { stretch: 0, semitones: 0, takes: true },
        { stretch: 1, semitones: 3, takes: true },
      ],
    ]);
    // B three semitones up is D.
    expect(second![2]).toBeGreaterThan(0);
    expect(first![11]).toBeGreaterThan(0.5);
    for (const row of [first!, second!])
      expect(row.reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 12);
  });

  it("must be there, and in one group only", () => {
    const of = (...numbers: number[]) => numbers.map((stretch) => ({ stretch, semitones: 0, takes: true }));
    expect(() => sharedLikelihoods(clear, [of(0, clear.length)])).toThrow(RangeError);
    expect(() => sharedLikelihoods(clear, [of(0, 1), of(1, 2)])).toThrow(RangeError);
  });
});
