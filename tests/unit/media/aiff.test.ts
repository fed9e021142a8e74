import { describe, expect, it } from "vitest";
import { decodeAiff, readExtended } from "@/lib/server/media/aiff";
import { MediaError } from "@/lib/server/media/MediaError";
import { aiff, be, bytesOf, commonChunk, EXTENDED_44100, iffChunk, le, soundChunk } from "./plainBytes";

const options = { maxDurationSec: 60 };

function codeOf(act: () => unknown): string {
  try {
    act();
  } catch (fault) {
    if (fault instanceof MediaError) return fault.code;
    throw fault;
  }
  return "none";
}

function float32(value: number): number[] {
  const view = new DataView(new ArrayBuffer(4));
  view.setFloat32(0, value);
  return [...new Uint8Array(view.buffer)];
}

function float64(value: number): number[] {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  return [...new Uint8Array(view.buffer)];
}

describe("80-bit numbers", () => {
  // IEEE 754 extended: sign and exponent (bias 16383), then 64 bits with the leading one. Values reckoned by hand.
  it.each([
    [44_100, EXTENDED_44100],
    [48_000, [0x40, 0x0e, 0xbb, 0x80, 0, 0, 0, 0, 0, 0]],
    [1, [0x3f, 0xff, 0x80, 0, 0, 0, 0, 0, 0, 0]],
    [22_254.545_454_5, [0x40, 0x0d, 0xad, 0xdd, 0x17, 0x45, 0xd1, 0x74, 0x5d, 0x17]],
  ])("reads %d", (value, bytes) => {
    expect(readExtended(new DataView(Uint8Array.from(bytes).buffer), 0)).toBeCloseTo(value, 6);
  });
});

describe("plain AIFF", () => {
  it.each([
    [8, [0x80, 0, 0x40]],
    [16, [...be(0x8000, 2), ...be(0, 2), ...be(0x4000, 2)]],
    [24, [...be(0x800000, 3), ...be(0, 3), ...be(0x400000, 3)]],
    [32, [...be(0x80000000, 4), ...be(0, 4), ...be(0x40000000, 4)]],
    // 12 bits stand left-justified in 16 (AIFF 1.3, "Sample Points and Sample Frames").
    [12, [...be(0x8000, 2), ...be(0, 2), ...be(0x4000, 2)]],
  ])("reads %i bits, signed and big-endian", (bits, samples) => {
    const file = aiff("AIFF", commonChunk(1, 3, bits), soundChunk(Uint8Array.from(samples)));
    const audio = decodeAiff(file, options);
    expect([...audio.channels[0]!]).toEqual([-1, 0, 0.5]);
    expect(audio.sampleRateHz).toBe(44_100);
    expect(audio.bitsPerSample).toBe(bits);
  });

  it.each([
    ["NONE", 16, [...be(0xc000, 2)]],
    ["twos", 16, [...be(0xc000, 2)]],
    ["sowt", 16, [...le(0xc000, 2)]],
    ["sowt", 24, [...le(0xc00000, 3)]],
    ["raw ", 8, [64]],
    ["fl32", 32, float32(-0.5)],
    ["fl64", 64, float64(-0.5)],
  ])("reads AIFF-C %s of %i bits", (compression, bits, sample) => {
    const file = aiff("AIFC", commonChunk(1, 1, bits, compression), soundChunk(Uint8Array.from(sample)));
    expect([...decodeAiff(file, options).channels[0]!]).toEqual([-0.5]);
  });

  it("reads chunks in any order and skips others", () => {
    const sound = soundChunk(bytesOf(be(0x4000, 2), be(0xc000, 2)));
    const file = aiff("AIFF", iffChunk("NAME", bytesOf("odd")), sound, commonChunk(2, 1, 16));
    expect(decodeAiff(file, options).channels.map((channel) => [...channel])).toEqual([[0.5], [-0.5]]);
  });

  it("tells a file that is cut short, at whichever byte", () => {
    const file = aiff("AIFF", commonChunk(1, 50, 16), soundChunk(new Uint8Array(100)));
    for (const length of [12, 19, 38, 40, 53, 54, 100, file.length - 1]) {
      expect(codeOf(() => decodeAiff(file.subarray(0, length), options))).toBe("cut-short");
    }
    expect(codeOf(() => decodeAiff(file, options))).toBe("none");
  });

  it("refuses what holds no samples, contradicts itself, is compressed or too long", () => {
    const of = (...chunks: Uint8Array[]) => codeOf(() => decodeAiff(aiff("AIFF", ...chunks), options));
    expect(of(commonChunk(1, 0, 16), soundChunk(new Uint8Array(0)))).toBe("empty");
    const rest = iffChunk("APPL", new Uint8Array(200));
    expect(of(commonChunk(1, 50, 16), soundChunk(new Uint8Array(20)), rest)).toBe("damaged");
    const packed = aiff("AIFC", commonChunk(1, 1, 16, "ima4"), soundChunk(new Uint8Array(34)));
    expect(codeOf(() => decodeAiff(packed, options))).toBe("needs-ffmpeg");
    const long = aiff("AIFF", commonChunk(1, 44_101, 8), soundChunk(new Uint8Array(44_101)));
    expect(codeOf(() => decodeAiff(long, { maxDurationSec: 1 }))).toBe("too-long");
  });
});
