import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  bytesOfFrames,
  decodeEarCopyHead,
  decodeFrames,
  EAR_COPY_FULL_SCALE,
  type EarCopyHead,
  encodeEarCopyHead,
  encodeFrames,
} from "@/lib/contracts/earCopy";
import { LEVEL } from "@/lib/hearing/parameters";
import { RecordIntake } from "@/lib/hearing/RecordIntake";
import { EarCopyMaker } from "@/lib/server/media/EarCopyMaker";

/** A copy as it would lie on disk. */
function makeCopy(channels: readonly Float32Array[], rateHz: number, block = 1_000) {
  let file = new Uint8Array(0);
  const maker = new EarCopyMaker({
    append(bytes) {
      const longer = new Uint8Array(file.length + bytes.length);
      longer.set(file);
      longer.set(bytes, file.length);
      file = longer;
    },
    rewriteStart: (bytes) => file.set(bytes),
  });
  maker.begin(channels.length, rateHz);
  const length = channels[0]!.length;
  for (let at = 0; at < length; at += block) {
    const count = Math.min(block, length - at);
    maker.take(
      channels.map((channel) => channel.subarray(at, at + count)),
      count,
    );
  }
  return { head: maker.finish(), file: () => file };
}

/** Two tones, each with a tone of its own in it, so that no channel is another. */
function tones(length: number, rateHz: number, hertz: readonly number[]): Float32Array[] {
  return hertz.map((own) =>
    Float32Array.from({ length }, (_, i) => {
      const turns = (2 * Math.PI * i) / rateHz;
      return 0.3 * Math.sin(220 * turns) + 0.2 * Math.sin(own * turns);
    }),
  );
}

const HALF_STEP = 0.5 / EAR_COPY_FULL_SCALE + 1e-6;

function furthest(one: Float32Array, other: Float32Array): number {
  return one.reduce((most, value, i) => Math.max(most, Math.abs(value - other[i]!)), 0);
}

describe("the layout of the copy", () => {
  it("survives being written and read", () => {
    const head = fc.record({
      channelCount: fc.constantFrom(1 as const, 2 as const),
      sampleRateHz: fc.integer({ min: 1, max: 2 ** 32 - 1 }),
      frameCount: fc.integer({ min: 0, max: 2 ** 32 - 1 }),
      level: fc.float({ min: 0, noNaN: true, noDefaultInfinity: true }),
      sideLevel: fc.float({ min: 0, noNaN: true, noDefaultInfinity: true }),
    });
    fc.assert(
      fc.property(head, (given: EarCopyHead) => {
        const bytes = encodeEarCopyHead(given);
        expect(bytes.length).toBe(32);
        expect(decodeEarCopyHead(bytes)).toEqual(given);
        expect(decodeEarCopyHead(Uint8Array.from([...bytes, 1, 2, 3]))).toEqual(given);
      }),
    );
  });

  it("is refused where it is none, of another version, or cut short", () => {
    const good = encodeEarCopyHead({
      channelCount: 2,
      sampleRateHz: 22_050,
      frameCount: 9,
      level: 0.1,
      sideLevel: 0,
    });
    const changed = (at: number, value: number) => good.map((byte, i) => (i === at ? value : byte));
    expect(() => decodeEarCopyHead(changed(0, 0))).toThrow(/do not begin/);
    expect(() => decodeEarCopyHead(good.subarray(0, 31))).toThrow(/do not begin/);
    expect(() => decodeEarCopyHead(changed(4, 2))).toThrow(/version 2/);
    expect(() => decodeEarCopyHead(changed(6, 3))).toThrow(/damaged/);
    expect(() => decodeFrames(new Uint8Array(6), { channelCount: 2 })).toThrow(/cut short/);
  });

  it("says where frames lie, the head before them", () => {
    expect(bytesOfFrames({ channelCount: 1 }, { startFrame: 0, endFrame: 1 })).toEqual({
      start: 32,
      end: 33,
    });
    expect(bytesOfFrames({ channelCount: 2 }, { startFrame: 10, endFrame: 12 })).toEqual({
      start: 72,
      end: 79,
    });
  });

  it("keeps samples to half a step up to twice full scale, left before right", () => {
    const left = Float32Array.of(0, 1, -1, 1.9, -2, 5, -5);
    const right = Float32Array.of(0.5, 0, 0.25, -0.1, 0.001, 0, 0);
    const bytes = encodeFrames([left, right], left.length);
    expect(bytes.length).toBe(4 * left.length);
    const [readLeft, readRight] = decodeFrames(bytes, { channelCount: 2 });
    expect(furthest(readLeft!.subarray(0, 5), left.subarray(0, 5))).toBeLessThan(HALF_STEP);
    expect(furthest(readRight!, right)).toBeLessThan(HALF_STEP);
    // What lies further out is cut off at twice full scale.
    expect(readLeft![5]).toBeCloseTo(2, 3);
    expect(readLeft![6]).toBeCloseTo(-2, 3);
  });
});

describe("making a copy", () => {
  it.each([44_100, 48_000, 22_050, 8_000])(
    "keeps of a record at %i Hz what the ear would hear of it, at the ear's rate",
    (rateHz) => {
      const channels = tones(Math.round(1.3 * rateHz), rateHz, [330, 550]);
      const { head, file } = makeCopy(channels, rateHz);
      const intake = new RecordIntake(rateHz);
      intake.take(channels, channels[0]!.length);
      const { signal } = intake.finish();
      expect(head).toMatchObject({ channelCount: 2, sampleRateHz: 22_050, frameCount: signal.length });
      expect(decodeEarCopyHead(file())).toEqual({
        ...head,
        level: Math.fround(head.level),
        sideLevel: Math.fround(head.sideLevel),
      });
      const [left, right] = decodeFrames(file().subarray(32), head);
      expect(left!.length).toBe(signal.length);
      const gain = LEVEL.rms / head.level;
      const mid = left!.map((sample, i) => (gain * (sample + right![i]!)) / 2);
      expect(furthest(mid, signal.read(0, new Float32Array(signal.length)))).toBeLessThan(
        gain * HALF_STEP * 2,
      );
      // What tells the channels apart is there too.
      expect(furthest(left!, right!)).toBeGreaterThan(0.3);
    },
  );

  it("does not depend on how the record is cut into blocks", () => {
    const channels = tones(30_000, 44_100, [330, 550]);
    const whole = makeCopy(channels, 44_100, 30_000).file();
    for (const block of [97, 1_009, 8_192]) expect(makeCopy(channels, 44_100, block).file()).toEqual(whole);
  });

  it("leaves mono mono", () => {
    const { head, file } = makeCopy(tones(4_410, 44_100, [330]), 44_100);
    expect(head).toMatchObject({ channelCount: 1, frameCount: 2_205, sideLevel: 0 });
    expect(file().length).toBe(32 + 2 * 2_205);
  });

  it("takes the level of what both channels share: a record against itself is silent", () => {
    const [left] = tones(4_410, 44_100, [330]);
    expect(makeCopy([left!, left!.map((value) => -value)], 44_100).head.level).toBeLessThan(1e-6);
    const level = Math.sqrt((0.3 ** 2 + 0.2 ** 2) / 2);
    expect(makeCopy([left!, left!], 44_100).head).toMatchObject({
      level: expect.closeTo(level, 3),
      sideLevel: 0,
    });
    const silence = new Float32Array(left!.length);
    expect(makeCopy([left!, silence], 44_100).head).toMatchObject({
      level: expect.closeTo(level / 2, 3),
      sideLevel: expect.closeTo(level / 2, 3),
    });
  });

  it("refuses a record of nothing, and samples that are no numbers", () => {
    expect(() => makeCopy([new Float32Array(0)], 44_100)).toThrow(/no samples/);
    expect(() => makeCopy([Float32Array.of(0, Number.NaN)], 44_100)).toThrow(/no numbers/);
  });
});
