import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PeakMaker } from "@/lib/contracts/PeakMaker";
import { decodePeaks, encodePeaks, PEAK_ZOOMS, type Peaks } from "@/lib/contracts/peaks";

function makePeaks(channels: Float32Array[], rateHz: number, block = 1_000): Peaks {
  const maker = new PeakMaker();
  maker.begin(channels.length, rateHz);
  const length = channels[0]!.length;
  for (let at = 0; at < length; at += block) {
    const count = Math.min(block, length - at);
    maker.take(
      channels.map((channel) => channel.subarray(at, at + count)),
      count,
    );
  }
  return maker.finish();
}

const samples = fc
  .array(fc.float({ min: -1, max: 1, noNaN: true }), { minLength: 1, maxLength: 3_000 })
  .map((values) => Float32Array.from(values));

describe("peaks", () => {
  it("survive being written and read", () => {
    const zoom = fc.record({
      framesPerPair: fc.integer({ min: 1, max: 2 ** 31 }),
      pairs: fc.array(fc.integer({ min: -127, max: 127 }), { maxLength: 40 }).map((values) => {
        return Int8Array.from(values.slice(0, values.length - (values.length % 2)));
      }),
    });
    const peaks: fc.Arbitrary<Peaks> = fc.record({
      sampleRateHz: fc.integer({ min: 4_000, max: 192_000 }),
      frameCount: fc.integer({ min: 0, max: 2 ** 32 - 1 }),
      zooms: fc.array(zoom, { maxLength: 5 }),
    });
    fc.assert(
      fc.property(peaks, fc.nat(7), (given, offset) => {
        const bytes = encodePeaks(given);
        // A reader may be handed a view into a larger buffer.
        const moved = new Uint8Array(bytes.length + offset);
        moved.set(bytes, offset);
        expect(decodePeaks(moved.subarray(offset))).toEqual(given);
      }),
    );
  });

  it("lie in the bytes as the contract says", () => {
    const bytes = encodePeaks({
      sampleRateHz: 44_100,
      frameCount: 300,
      zooms: [{ framesPerPair: 256, pairs: Int8Array.from([-127, 127, -1, 2]) }],
    });
    expect([...bytes]).toEqual([
      ...[0x4c, 0x42, 0x50, 0x4b, 1, 0, 1, 0, 0x44, 0xac, 0, 0, 0x2c, 1, 0, 0],
      ...[0, 1, 0, 0, 2, 0, 0, 0, 28, 0, 0, 0],
      ...[129, 127, 255, 2],
    ]);
  });

  it("refuse bytes that are something else or not all there", () => {
    const bytes = encodePeaks(makePeaks([new Float32Array(1_000)], 8_000));
    expect(() => decodePeaks(bytes.subarray(0, 10))).toThrow(RangeError);
    expect(() => decodePeaks(bytes.subarray(0, bytes.length - 1))).toThrow("cut short");
    expect(() => decodePeaks(new Uint8Array(64))).toThrow("not the peaks");
    expect(() => decodePeaks(Uint8Array.from(bytes, (byte, i) => (i === 4 ? 9 : byte)))).toThrow("version 9");
  });

  it("hold every sample, at every zoom, and are no wider than a step", () => {
    fc.assert(
      fc.property(samples, (channel) => {
        const { zooms, frameCount } = makePeaks([channel], 44_100);
        expect(frameCount).toBe(channel.length);
        expect(zooms.map(({ framesPerPair }) => framesPerPair)).toEqual([...PEAK_ZOOMS]);
        for (const { framesPerPair, pairs } of zooms) {
          expect(pairs.length).toBe(2 * Math.ceil(channel.length / framesPerPair));
          for (let pair = 0; 2 * pair < pairs.length; pair++) {
            const part = channel.subarray(pair * framesPerPair, (pair + 1) * framesPerPair);
            const low = Math.min(...part) * 127;
            const high = Math.max(...part) * 127;
            expect(pairs[2 * pair]!).toBeLessThanOrEqual(low + 1e-9);
            expect(pairs[2 * pair]!).toBeGreaterThanOrEqual(low - 1);
            expect(pairs[2 * pair + 1]!).toBeGreaterThanOrEqual(high - 1e-9);
            expect(pairs[2 * pair + 1]!).toBeLessThanOrEqual(high + 1);
          }
        }
      }),
      { numRuns: 30 },
    );
  });

  it("are the same however the samples come", () => {
    const channel = Float32Array.from({ length: 5_000 }, (_, n) => Math.sin(n * n));
    const whole = makePeaks([channel], 44_100, channel.length);
    for (const block of [1, 255, 256, 4_097]) expect(makePeaks([channel], 44_100, block)).toEqual(whole);
  });

  it("span all channels and clip what goes over full scale", () => {
    const { zooms } = makePeaks([Float32Array.from([0.5, 0]), Float32Array.from([0, -3])], 44_100);
    expect([...zooms[0]!.pairs]).toEqual([-127, 64]);
  });
});
