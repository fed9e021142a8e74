import { describe, expect, it } from "vitest";
import { trackBeats } from "@/lib/hearing/beatTracking";

const RATE = 86;

/** An onset curve with a peak of 2 at each of the times. */
function pulses(timesSec: number[], durationSec: number): Float64Array {
  const curve = new Float64Array(Math.ceil(durationSec * RATE));
  for (const time of timesSec) {
    const frame = Math.round(time * RATE);
    curve[frame] = 2;
    for (const near of [frame - 1, frame + 1]) curve[near] = Math.max(curve[near] ?? 0, 1);
  }
  return curve;
}

function evenly(count: number, periodSec: number, fromSec: number): number[] {
  return Array.from({ length: count }, (_, i) => fromSec + i * periodSec);
}

describe("tracking beats on a curve", () => {
  it("breaks off where the tempo jumps, and only there", () => {
    const slow = evenly(20, 0.75, 0.2);
    const fast = evenly(30, 0.42, slow.at(-1)! + 0.75);
    const { timesSec, afterBreak } = trackBeats(pulses([...slow, ...fast], 30), RATE, 0.56);
    expect(afterBreak).toHaveLength(1);
    expect(timesSec[afterBreak[0]!]! - fast[0]!).toBeLessThan(1.1);
    for (const time of [...slow, ...fast.slice(2)]) {
      expect(Math.min(...timesSec.map((heard) => Math.abs(heard - time)))).toBeLessThan(0.02);
    }
  });

  it("does not go over to another level of the metre", () => {
    const whole = evenly(24, 0.6, 0.2);
    const halves = evenly(40, 0.3, whole.at(-1)! + 0.6);
    const { timesSec } = trackBeats(pulses([...whole, ...halves], 27.5), RATE, 0.45);
    const steps = timesSec.slice(1).map((time, i) => time - timesSec[i]!);
    expect(Math.max(...steps) / Math.min(...steps)).toBeLessThan(1.5);
  });

  it("goes on in steady beats through a pause in them", () => {
    const before = evenly(20, 0.5, 0.2);
    const after = evenly(20, 0.5, 0.2 + 26 * 0.5);
    const { timesSec, afterBreak } = trackBeats(pulses([...before, ...after], 23), RATE, 0.5);
    expect(afterBreak).toEqual([]);
    expect(timesSec).toHaveLength(46);
  });

  it("finds none in a curve shorter than a beat", () => {
    expect(trackBeats(new Float64Array(20), RATE, 0.5)).toEqual({ timesSec: [], afterBreak: [] });
  });
});
