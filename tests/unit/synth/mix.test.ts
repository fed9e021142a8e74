import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mix } from "@/lib/synth/mix";
import { answerOfRoom } from "@/lib/synth/room";
import { seededNoise } from "@/lib/synth/seededNoise";

const RATE_HZ = 44100;

describe("the mix", () => {
  it("never passes 1, whatever comes in", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            samples: fc.float32Array({ min: -50, max: 50, noNaN: true, maxLength: 400 }),
            gain: fc.double({ min: 0, max: 20, noNaN: true }),
            pan: fc.double({ min: -1, max: 1, noNaN: true }),
            room: fc.double({ min: 0, max: 1, noNaN: true }),
          }),
          { maxLength: 4 },
        ),
        (tracks) => {
          for (const channel of mix(tracks, RATE_HZ)) {
            expect(channel.every((sample) => Math.abs(sample) < 1)).toBe(true);
          }
        },
      ),
      { numRuns: 50 },
    );
  });

  it("pans: hard left leaves the right ear empty, the middle sounds alike in both", () => {
    const samples = Float32Array.from({ length: 500 }, (_, index) => Math.sin(index / 7));
    const [left, right] = mix([{ samples, gain: 1, pan: -1, room: 0 }], RATE_HZ);
    expect(right.every((sample) => Math.abs(sample) < 1e-6)).toBe(true);
    expect(left.some((sample) => sample > 0.5)).toBe(true);
    const [middleLeft, middleRight] = mix([{ samples, gain: 1, pan: 0, room: 0 }], RATE_HZ);
    for (const [index, sample] of middleLeft.entries()) expect(sample).toBeCloseTo(middleRight[index]!, 6);
  });

  it("leaves silence silent", () => {
    const [left] = mix([{ samples: new Float32Array(100), gain: 1, pan: 0, room: 1 }], RATE_HZ);
    expect(left.every((sample) => sample === 0)).toBe(true);
    expect(mix([], RATE_HZ)[0]).toHaveLength(0);
  });
});

describe("the room", () => {
  it("falls by 60 dB in about its decay time, sooner in the treble", () => {
    const click = new Float32Array(RATE_HZ * 2);
    click[0] = 1;
    const answer = answerOfRoom(click, RATE_HZ, 0.9, 0);
    const energy = (from: number, to: number) =>
      answer.slice(from * RATE_HZ, to * RATE_HZ).reduce((sum, sample) => sum + sample ** 2, 0);
    const early = energy(0.05, 0.15);
    const fallDb = 10 * Math.log10(energy(0.95, 1.05) / early);
    expect(fallDb).toBeLessThan(-50);
    expect(energy(0.4, 0.5)).toBeGreaterThan(early * 1e-5);
  });
});

describe("seeded noise", () => {
  it("is the published 32-bit generator", () => {
    // Marsaglia 2003, shifts (13, 17, 5): from 1 the next state is 270369, then 67634689.
    const noise = seededNoise(1);
    expect((noise() + 1) * 2 ** 31).toBe(270369);
    expect((noise() + 1) * 2 ** 31).toBe(67634689);
  });

  it("lies evenly between -1 and 1", () => {
    const noise = seededNoise(2468);
    const values = Array.from({ length: 20000 }, noise);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const power = values.reduce((sum, value) => sum + value ** 2, 0) / values.length;
    expect(values.every((value) => value >= -1 && value < 1)).toBe(true);
    expect(Math.abs(mean)).toBeLessThan(0.02);
    // The mean square of an even spread over -1 to 1 is 1/3.
    expect(power).toBeCloseTo(1 / 3, 1);
  });
});
