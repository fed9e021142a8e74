import { describe, expect, it } from "vitest";
import { LoopReader } from "@/lib/client/playback/LoopReader";
import { likeness, seamGains } from "@/lib/client/playback/loopSeam";
import type { Stereo } from "@/lib/client/playback/RecordSamples";
import { seededNoise } from "@/lib/synth/seededNoise";
import { renderSteel } from "@/lib/synth/steelVoice";
import { greatestStep, RATE_HZ, recordOf, tone } from "./playing";

const SEAM_SEC = 0.02;

/** Four times through a loop; the seams end at its whole lengths. */
function loopOf(samples: Float32Array, startSec: number, endSec: number, seamSec = SEAM_SEC) {
  const reader = new LoopReader(recordOf([samples]));
  const [startFrame, endFrame] = [startSec, endSec].map((sec) => Math.round(sec * RATE_HZ)) as [
    number,
    number,
  ];
  reader.goTo(startFrame);
  reader.setLoop({ startFrame, endFrame, seamFrames: Math.round(seamSec * RATE_HZ), isJoined: true });
  const heard: Stereo = [
    new Float32Array(4 * (endFrame - startFrame)),
    new Float32Array(4 * (endFrame - startFrame)),
  ];
  reader.read(heard, heard[0].length);
  return { heard: heard[0], lengthFrames: endFrame - startFrame, reader };
}

/** Greatest step within 2 ms of the places where the loop goes back, or, with `false`, anywhere in the seams. */
function stepAtSeams({ heard, lengthFrames }: ReturnType<typeof loopOf>): number {
  const seamFrames = SEAM_SEC * RATE_HZ;
  return Math.max(
    ...[1, 2, 3].map((turn) =>
      greatestStep(heard, turn * lengthFrames - seamFrames - 10, turn * lengthFrames + 10),
    ),
  );
}

/** The end within 20 ms after another at which a loop that is cut would step the furthest, and by how much. */
function worstEnd(samples: Float32Array, startSec: number, endSec: number): { endSec: number; step: number } {
  const start = samples[Math.round(startSec * RATE_HZ)]!;
  let [end, step] = [0, 0];
  for (let at = Math.round(endSec * RATE_HZ); at < (endSec + 0.02) * RATE_HZ; at += 1)
    if (Math.abs(samples[at - 1]! - start) > step) [end, step] = [at, Math.abs(samples[at - 1]! - start)];
  return { endSec: end / RATE_HZ, step };
}

const noise = seededNoise(3);
const steel = renderSteel(
  [59, 64, 68].map((midi) => ({
    ...{
      startSec: 0.2,
      endSec: 2.8,
      pitch: [{ timeSec: 0.2, midi }],
      vibrato: null,
      level: 0.3,
      swellSec: 0,
    },
  })),
  3,
  RATE_HZ,
  seededNoise(1),
);

describe("the seam of a loop", () => {
  it.each([
    ["a tone that comes round out of step", tone(440, 3), 0.5, 1.2],
    ["a low tone that comes round out of step", tone(55, 3), 0.5, 1.7],
    ["a chord of the steel while it rings", steel, 0.5, 2.1],
  ])("makes no step greater than the sound's own: %s", (_, samples, startSec, aboutSec) => {
    const { endSec, step } = worstEnd(samples, startSec, aboutSec);
    const own = greatestStep(samples, 0.3 * RATE_HZ);
    // The gains themselves move by less than a hundredth of the sound's own step.
    expect(stepAtSeams(loopOf(samples, startSec, endSec))).toBeLessThanOrEqual(own * 1.03);
    // A loop that is cut would have one.
    expect(step).toBeGreaterThan(own * 1.5);
  });

  it("keeps the power of a sound that has nothing in common with itself a loop later", () => {
    const samples = Float32Array.from({ length: 3 * RATE_HZ }, () => 0.3 * noise());
    const { heard, lengthFrames } = loopOf(samples, 0.5, 1.25, 0.03);
    const power = (from: number, count: number) =>
      heard.subarray(from, from + count).reduce((sum, sample) => sum + sample * sample, 0) / count;
    const seamFrames = 0.03 * RATE_HZ;
    const own = power(0, lengthFrames - seamFrames);
    const atSeam = [1, 2, 3].map((turn) => power(turn * lengthFrames - seamFrames, seamFrames));
    // Of 1,440 samples the power is known to a twentieth or so.
    for (const each of atSeam) expect(10 * Math.log10(each / own)).toBeCloseTo(0, 0);
  });

  it("lets a steady tone that comes round in step pass as if there were none", () => {
    // 440 Hz goes through a whole number of periods in 0.75 s.
    const { heard } = loopOf(tone(440, 3), 0.5, 1.25);
    const expected = tone(440, 4, [[0, 4]]).subarray(0.5 * RATE_HZ);
    const off = heard.reduce((most, sample, at) => Math.max(most, Math.abs(sample - expected[at]!)), 0);
    expect(off).toBeLessThan(1e-3);
  });

  it("lets the beginning be heard whole and nothing that follows the end", () => {
    const samples = new Float32Array(2 * RATE_HZ);
    // A click at the very beginning, another right after the end.
    samples[0.5 * RATE_HZ] = 0.9;
    samples[1 * RATE_HZ] = 0.8;
    const { heard, lengthFrames } = loopOf(samples, 0.5, 1);
    for (const turn of [0, 1, 2, 3]) expect(heard[turn * lengthFrames]).toBeCloseTo(0.9, 4);
    expect(heard.some((sample) => Math.abs(sample - 0.8) < 0.05)).toBe(false);
  });

  it("is no longer than half a loop, and one of a few frames goes round all the same", () => {
    const { heard } = loopOf(tone(440, 3), 1, 1.01, 0.03);
    expect(greatestStep(heard)).toBeLessThan(2 * greatestStep(tone(440, 3)));
  });
});

describe("the gains of a seam", () => {
  it.each([0, 0.3, 1])("keep the power of two sounds that are alike by %f", (alike) => {
    for (let way = 0; way <= 1; way += 0.05) {
      const [ending, beginning] = seamGains(way, alike);
      expect(ending ** 2 + beginning ** 2 + 2 * alike * ending * beginning).toBeCloseTo(1, 9);
    }
    expect(seamGains(0, alike)[0]).toBeCloseTo(1, 9);
    expect(seamGains(1, alike)[1]).toBeCloseTo(1, 9);
  });

  it("know how alike two sounds are", () => {
    // 400 Hz, and the same a sixth of a period later.
    const longer = tone(400, 0.2);
    const [a, b] = [longer.subarray(0, 4800), longer.subarray(20, 4820)];
    const silent = new Float32Array(a.length);
    expect(likeness([a, a], [a, a], a.length)).toBeCloseTo(1, 6);
    expect(likeness([a, silent], [silent, a], a.length)).toBe(0);
    expect(likeness([a, a], [a.map((x) => -x), a.map((x) => -x)], a.length)).toBe(0);
    expect(likeness([a, a], [b, b], a.length)).toBeCloseTo(Math.cos(Math.PI / 3), 6);
    expect(likeness([silent, silent], [a, a], a.length)).toBe(0);
  });
});
