import { describe, expect, it } from "vitest";
import { steadyStretches } from "@/lib/fit/steadyStretches";

const passage = { startSec: 1, endSec: 3 };

describe("steady stretches", () => {
  it("are the whole passage where nothing glides", () => {
    const [only, ...rest] = steadyStretches(passage, [{ midi: 67 }, { midi: 71 }]);
    expect(rest).toHaveLength(0);
    expect(only).toMatchObject(passage);
    expect([...only!.moved.values()]).toEqual([[0], [0]]);
  });

  it("lie before and after a glide, with the pitch that each note has there", () => {
    const glide = { toMidi: 69, atSec: 2, durationSec: 0.2 };
    const [before, after] = steadyStretches(passage, [{ midi: 67, glides: [glide] }, { midi: 71 }]);
    expect(before!.startSec).toBe(1);
    expect(before!.endSec).toBeCloseTo(1.9, 9);
    expect(after!.startSec).toBeCloseTo(2.1, 9);
    expect(before!.moved.get(67)).toEqual([0]);
    expect(after!.moved.get(67)).toEqual([2]);
    expect(after!.moved.get(71)).toEqual([0]);
  });

  it("keep two notes apart that begin on one pitch and part", () => {
    const glide = { toMidi: 69, atSec: 2, durationSec: 0.2 };
    const parting = [{ midi: 67, glides: [glide] }, { midi: 67 }];
    for (const notes of [parting, parting.toReversed()]) {
      const [before, after] = steadyStretches(passage, notes);
      expect(before!.moved.get(67)).toEqual([0, 0]);
      expect([...after!.moved.get(67)!].sort()).toEqual([0, 2]);
    }
  });

  it("pass over what is too short to hear, and keep the longest whatever it is", () => {
    const glide = (atSec: number) => ({ toMidi: 69, atSec, durationSec: 0.2 });
    const stretches = steadyStretches(passage, [{ midi: 67, glides: [glide(1.15), glide(2)] }]);
    expect(stretches.map(({ startSec }) => Number(startSec.toFixed(2)))).toEqual([1.25, 2.1]);
    expect(steadyStretches({ startSec: 0, endSec: 0.1 }, [{ midi: 67 }])).toHaveLength(1);
  });
});
