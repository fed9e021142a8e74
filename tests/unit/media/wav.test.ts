import { describe, expect, it } from "vitest";
import { MediaError } from "@/lib/server/media/MediaError";
import { decodeWav } from "@/lib/server/media/wav";
import { wavBlocks, wavHeader } from "@/lib/server/media/wavFile";
import { bytesOf, le, riff, riffChunk, wavFormat } from "./plainBytes";

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

function floats(values: number[], bytesEach: 4 | 8): Uint8Array {
  const view = new DataView(new ArrayBuffer(values.length * bytesEach));
  values.forEach((value, i) => {
    if (bytesEach === 4) view.setFloat32(i * 4, value, true);
    else view.setFloat64(i * 8, value, true);
  });
  return new Uint8Array(view.buffer);
}

/** Sample layouts of "Multimedia Programming Interface and Data Specifications 1.0": 8 bits unsigned, the rest signed. */
describe("plain WAV", () => {
  const cases: [string, number, number, Uint8Array][] = [
    ["8 bits", 1, 8, bytesOf([0, 128, 192])],
    ["16 bits", 1, 16, bytesOf(le(0x8000, 2), le(0, 2), le(0x4000, 2))],
    ["24 bits", 1, 24, bytesOf(le(0x800000, 3), le(0, 3), le(0x400000, 3))],
    ["32 bits", 1, 32, bytesOf(le(0x80000000, 4), le(0, 4), le(0x40000000, 4))],
    ["32-bit floats", 3, 32, floats([-1, 0, 0.5], 4)],
    ["64-bit floats", 3, 64, floats([-1, 0, 0.5], 8)],
  ];
  it.each(cases)("reads %s", (_, tag, bits, samples) => {
    const file = riff(riffChunk("fmt ", wavFormat(tag, 1, 8_000, bits)), riffChunk("data", samples));
    const audio = decodeWav(file, options);
    expect([...audio.channels[0]!]).toEqual([-1, 0, 0.5]);
    expect(audio.sampleRateHz).toBe(8_000);
    expect(audio.bitsPerSample).toBe(bits);
    expect(audio.durationSec).toBe(3 / 8_000);
  });

  it("takes channels apart", () => {
    const samples = bytesOf(le(0x4000, 2), le(0xc000, 2), le(0x2000, 2), le(0xe000, 2));
    const file = riff(riffChunk("fmt ", wavFormat(1, 2, 44_100, 16)), riffChunk("data", samples));
    const { channels } = decodeWav(file, options);
    expect(channels.map((channel) => [...channel])).toEqual([
      [0.5, 0.25],
      [-0.5, -0.25],
    ]);
  });

  it("folds more than two channels to their average", () => {
    const samples = bytesOf(le(0x4000, 2), le(0, 2), le(0x2000, 2));
    const file = riff(riffChunk("fmt ", wavFormat(1, 3, 44_100, 16)), riffChunk("data", samples));
    const audio = decodeWav(file, options);
    expect(audio.channels.map((channel) => [...channel])).toEqual([[0.25]]);
    expect(audio.sourceChannelCount).toBe(3);
  });

  // "Multiple Channel Audio Data and WAVE Files" (Microsoft): valid bits, channel mask, GUID whose first two bytes are the tag.
  it("reads WAVE_FORMAT_EXTENSIBLE with 24 bits in containers of 32", () => {
    const format = bytesOf(
      wavFormat(0xfffe, 1, 48_000, 32),
      le(22, 2),
      le(24, 2),
      le(4, 4),
      le(1, 2),
      new Uint8Array(14),
    );
    const file = riff(riffChunk("fmt ", format), riffChunk("data", bytesOf(le(0x40000000, 4))));
    const audio = decodeWav(file, options);
    expect([...audio.channels[0]!]).toEqual([0.5]);
    expect(audio.bitsPerSample).toBe(24);
  });

  it("reads chunks in any order, with padding of odd ones", () => {
    const file = riff(
      riffChunk("LIST", bytesOf([1, 2, 3])),
      riffChunk("data", bytesOf([255, 0, 128])),
      riffChunk("note", bytesOf([9])),
      riffChunk("fmt ", wavFormat(1, 1, 8_000, 8)),
    );
    expect([...decodeWav(file, options).channels[0]!]).toEqual([127 / 128, -1, 0]);
  });

  // EBU Tech 3306: sizes of -1 stand for those in the ds64 chunk.
  it("reads RF64", () => {
    const sizes = bytesOf(le(0, 8), le(4, 8), le(2, 8), le(0, 4));
    const body = bytesOf(
      "WAVE",
      riffChunk("ds64", sizes),
      riffChunk("fmt ", wavFormat(1, 1, 44_100, 16)),
      riffChunk("data", bytesOf(le(0x4000, 2), le(0xc000, 2)), 0xffffffff),
      riffChunk("junk", bytesOf([1, 2, 3, 4])),
    );
    const audio = decodeWav(bytesOf("RF64", le(0xffffffff, 4), body), options);
    expect([...audio.channels[0]!]).toEqual([0.5, -0.5]);
  });

  it("reads to the end where a stream's writer did not know the size", () => {
    const file = riff(
      riffChunk("fmt ", wavFormat(1, 1, 44_100, 16)),
      riffChunk("data", bytesOf(le(0x4000, 2), le(0xc000, 2)), 0xffffffff),
    );
    expect([...decodeWav(file, options).channels[0]!]).toEqual([0.5, -0.5]);
  });

  it("tells a file that is cut short, at whichever byte", () => {
    const file = riff(riffChunk("fmt ", wavFormat(1, 1, 8_000, 16)), riffChunk("data", new Uint8Array(100)));
    for (const length of [12, 20, 36, 44, 45, 100, file.length - 1]) {
      expect(codeOf(() => decodeWav(file.subarray(0, length), options))).toBe("cut-short");
    }
  });

  it("refuses what holds no samples, runs too long, or is compressed", () => {
    const format = riffChunk("fmt ", wavFormat(1, 1, 8_000, 16));
    expect(codeOf(() => decodeWav(riff(format, riffChunk("data", new Uint8Array(0))), options))).toBe(
      "empty",
    );
    const second = riff(format, riffChunk("data", new Uint8Array(16_000)));
    expect(codeOf(() => decodeWav(second, { maxDurationSec: 0.99 }))).toBe("too-long");
    expect(codeOf(() => decodeWav(second, { maxDurationSec: 1 }))).toBe("none");
    const compressed = riff(
      riffChunk("fmt ", wavFormat(2, 1, 8_000, 8)),
      riffChunk("data", new Uint8Array(9)),
    );
    expect(codeOf(() => decodeWav(compressed, options))).toBe("needs-ffmpeg");
    const nonsense = riff(
      riffChunk("fmt ", wavFormat(1, 0, 8_000, 16)),
      riffChunk("data", new Uint8Array(9)),
    );
    expect(codeOf(() => decodeWav(nonsense, options))).toBe("damaged");
  });

  it.each([16, 24] as const)("writes %i bits so that reading gives the same samples", (bits) => {
    const step = 2 ** (1 - bits);
    const left = Float32Array.from([0, step, -step, 0.5, -1, 1 - step, 2, -2]);
    const right = Float32Array.from([0.25, -0.25, 0, 0, 0, 0, 0, 0]);
    const file = bytesOf(wavHeader(2, 44_100, bits, left.length), ...wavBlocks([left, right], bits));
    const { channels } = decodeWav(file, options);
    expect([...channels[0]!]).toEqual([0, step, -step, 0.5, -1, 1 - step, 1 - step, -1]);
    expect([...channels[1]!]).toEqual([...right]);
  });
});
