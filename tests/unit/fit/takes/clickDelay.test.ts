import { describe, expect, it } from "vitest";
import { clickDelay } from "@/lib/fit/takes/clickDelay";
import { seededNoise } from "@/lib/synth/seededNoise";

const RATE_HZ = 48_000;
const TIMES_SEC = [0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4];

/** A sine of 1.5 kHz that dies within 20 ms. */
const click = Float32Array.from({ length: 960 }, (_, n) => {
  const t = n / RATE_HZ;
  return Math.sin(2 * Math.PI * 1500 * t) * Math.exp(-t / 0.004);
});

interface Room {
  delaySec: (index: number) => number;
  level?: number;
  noise?: number;
  echoSec?: number;
  echo?: number;
  missing?: number[];
}

function heard({ delaySec, level = 0.1, noise = 0, echoSec = 0.023, echo = 0, missing = [] }: Room) {
  const hiss = seededNoise(7);
  const samples = Float32Array.from({ length: 5 * RATE_HZ }, () => noise * hiss());
  const add = (atSec: number, gain: number) => {
    const from = Math.round(atSec * RATE_HZ);
    click.forEach((value, n) => {
      if (from + n < samples.length) samples[from + n]! += gain * value;
    });
  };
  TIMES_SEC.forEach((time, index) => {
    if (missing.includes(index)) return;
    add(time + delaySec(index), -level);
    add(time + delaySec(index) + echoSec, level * echo);
  });
  return clickDelay({ samples, sampleRateHz: RATE_HZ, click, timesSec: TIMES_SEC });
}

/** @returns the delay in seconds */
function told(delay: ReturnType<typeof heard>): number {
  if (!delay.isTold) throw new Error(`not told: ${delay.why}`);
  return delay.delaySec;
}

describe("delay of clicks", () => {
  it("is told to a tenth of a millisecond in silence, turned round by the microphone, early ones too", () => {
    for (const delaySec of [0.0123, 0.187, 0.38, -0.02])
      expect(told(heard({ delaySec: () => delaySec }))).toBeCloseTo(delaySec, 4);
  });

  it("is told within a millisecond under noise whose root mean square is a third of the click's peak", () => {
    const delay = heard({ delaySec: () => 0.064, noise: 0.058 });
    expect(Math.abs(told(delay) - 0.064)).toBeLessThan(1e-3);
  });

  it("goes by the way straight where a wall answers louder", () => {
    expect(told(heard({ delaySec: () => 0.05, echo: 1.4 }))).toBeCloseTo(0.05, 3);
  });

  it("does without three of eight clicks, and says how many it heard", () => {
    const delay = heard({ delaySec: () => 0.09, missing: [0, 3, 6], noise: 0.01 });
    expect(told(delay)).toBeCloseTo(0.09, 3);
    expect(delay).toMatchObject({ heardCount: 5, clickCount: 8 });
  });

  it("tells how far the clicks of an unsteady device spread", () => {
    const delay = heard({ delaySec: (index) => 0.1 + 0.002 * ((index % 3) - 1) });
    expect(told(delay)).toBeCloseTo(0.1, 3);
    expect(delay.isTold && delay.spreadSec).toBeGreaterThan(0.001);
    expect(delay.isTold && delay.spreadSec).toBeLessThan(0.004);
  });

  it("says that they were too quiet in noise alone, in silence, and where most are missing", () => {
    const late = () => 0.05;
    expect(heard({ delaySec: late, level: 0, noise: 0.1 })).toMatchObject({ isTold: false, why: "tooQuiet" });
    expect(heard({ delaySec: late, level: 0 })).toMatchObject({
      isTold: false,
      why: "tooQuiet",
      heardCount: 0,
    });
    expect(heard({ delaySec: late, missing: [0, 1, 2, 4, 5, 6], noise: 0.01 })).toMatchObject({
      isTold: false,
      why: "tooQuiet",
    });
  });

  it("says that they do not agree where each comes at a time of its own", () => {
    const delays = [0.02, 0.11, 0.33, 0.07, 0.25, 0.18, 0.4, 0.29];
    expect(heard({ delaySec: (index) => delays[index]! })).toMatchObject({ isTold: false, why: "scattered" });
  });

  it("refuses to tell of no clicks", () => {
    const nothing = { samples: new Float32Array(9), sampleRateHz: RATE_HZ };
    expect(() => clickDelay({ ...nothing, click, timesSec: [] })).toThrow(RangeError);
    expect(() => clickDelay({ ...nothing, click: new Float32Array(0), timesSec: [1] })).toThrow(RangeError);
  });
});
