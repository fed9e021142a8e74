import { describe, expect, it } from "vitest";
import { encodeWav } from "@/lib/synth/encodeWav";

const text = (bytes: Uint8Array, at: number) => String.fromCharCode(...bytes.slice(at, at + 4));

describe("a WAVE file", () => {
  // IBM and Microsoft, "Multimedia Programming Interface and Data Specifications 1.0" (1991), chapters 2 and 3:
  // RIFF chunk, then `fmt ` with wFormatTag, nChannels, nSamplesPerSec, nAvgBytesPerSec, nBlockAlign,
  // wBitsPerSample, then `data`; little-endian; 16-bit samples are signed, channels interleaved.
  const left = Float32Array.from([0, 0.5, 1, -1, 2]);
  const right = Float32Array.from([0, -0.5, -2, 0.25, 0]);
  const bytes = encodeWav([left, right], 44100);
  const view = new DataView(bytes.buffer);

  it("has the header of the specification", () => {
    expect(text(bytes, 0)).toBe("RIFF");
    expect(view.getUint32(4, true)).toBe(bytes.length - 8);
    expect(text(bytes, 8)).toBe("WAVE");
    expect(text(bytes, 12)).toBe("fmt ");
    expect(view.getUint32(16, true)).toBe(16);
    expect(view.getUint16(20, true)).toBe(1);
    expect(view.getUint16(22, true)).toBe(2);
    expect(view.getUint32(24, true)).toBe(44100);
    expect(view.getUint32(28, true)).toBe(44100 * 2 * 2);
    expect(view.getUint16(32, true)).toBe(4);
    expect(view.getUint16(34, true)).toBe(16);
    expect(text(bytes, 36)).toBe("data");
    expect(view.getUint32(40, true)).toBe(5 * 4);
    expect(bytes.length).toBe(44 + 5 * 4);
  });

  it("interleaves channels, rounds, and clips what is too loud", () => {
    const samples = Array.from({ length: 10 }, (_, index) => view.getInt16(44 + index * 2, true));
    expect(samples).toEqual([0, 0, 16384, -16383, 32767, -32767, -32767, 8192, 32767, 0]);
  });

  it("refuses channels that are missing or do not match", () => {
    expect(() => encodeWav([], 44100)).toThrow(RangeError);
    expect(() => encodeWav([left, new Float32Array(2)], 44100)).toThrow("same length");
  });

  it("may be empty of sound", () => {
    expect(encodeWav([new Float32Array(0)], 8000)).toHaveLength(44);
  });
});
