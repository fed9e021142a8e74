import { FLACDecoder } from "@wasm-audio-decoders/flac";
import { afterEach, expect, test, vi } from "vitest";
import { decodeFlac } from "@/lib/server/media/flac";
import { SampleSink } from "@/lib/server/media/SampleSink";
import { be, bytesOf } from "./plainBytes";

/** A checksum of `width` bits, zero at the start (RFC 9639, sections 9.1.8 and 9.3). */
function crc(bytes: Uint8Array, polynomial: number, width: 8 | 16): number {
  let value = 0;
  for (const byte of bytes) {
    value ^= byte << (width - 8);
    for (let bit = 0; bit < 8; bit++) value = (value << 1) ^ ((value >> (width - 1)) & 1 ? polynomial : 0);
    value &= 2 ** width - 1;
  }
  return value;
}

const BLOCK = 65_535;

/** A frame of one sample, 65535 times over in both channels (RFC 9639, sections 9.1 and 9.2.2): 17 bytes. */
function constantFrame(index: number): Uint8Array {
  const number = index < 128 ? [index] : [0xc0 | (index >> 6), 0x80 | (index & 63)];
  const head = bytesOf([0xff, 0xf8, 0x79, 0x18], number, be(BLOCK - 1, 2));
  const frame = bytesOf(head, [crc(head, 0x07, 8)], [0, 0x12, 0x34], [0, 0x12, 0x34]);
  return bytesOf(frame, be(crc(frame, 0x8005, 16), 2));
}

/** FLAC of 44.1 kHz, 16 bits, two channels, that does not tell how long it is (RFC 9639, section 8.2). */
function constantFlac(frames: number): Uint8Array {
  // Rate (20 bits), channels less one (3), bits less one (5), length unknown (36).
  const [rate, channels, bits] = [44_100 * 2 ** 12, 1 * 2 ** 9, 15 * 2 ** 4];
  const info = bytesOf(be(BLOCK, 2), be(BLOCK, 2), be(0, 6), be(rate + channels + bits, 4), be(0, 20));
  const all = Array.from({ length: frames }, (_, index) => constantFrame(index));
  return bytesOf("fLaC", [0x80], be(info.length, 3), info, ...all);
}

afterEach(() => vi.restoreAllMocks());

test("a small file that decodes to hours is stopped soon after what may be", async () => {
  const decode = vi.spyOn(FLACDecoder.prototype, "decode");
  const file = constantFlac(1_000);
  expect(file.length).toBeLessThan(20_000);
  await expect(decodeFlac(file, false, { maxDurationSec: 60 })).rejects.toMatchObject({ code: "too-long" });
  const pieces = await Promise.all(decode.mock.results.map((result) => result.value));
  const samples = pieces.reduce((sum, piece) => sum + piece.samplesDecoded, 0);
  expect(samples).toBeGreaterThan(60 * 44_100);
  // 1000 frames would be 65 million.
  expect(samples).toBeLessThan(300 * BLOCK);
});

test("what may be is decoded whole", async () => {
  const { channels, durationSec } = await decodeFlac(constantFlac(30), false, { maxDurationSec: 60 });
  expect(durationSec).toBeCloseTo((30 * BLOCK) / 44_100, 6);
  expect(channels[1]!.at(-1)).toBeCloseTo(0x1234 / 32_768, 4);
});

test("a high sample rate makes no record larger than the longest at 96 kHz, and the refusal says so", () => {
  const open = (rateHz: number, frames: number) => new SampleSink(2, rateHz, { maxDurationSec: 60 }, frames);
  expect(() => open(96_000, 60 * 96_000)).not.toThrow();
  expect(() => open(96_000, 60 * 96_000 + 1)).toThrow("longer than 1 minute.");
  expect(() => open(192_000, 60 * 96_000)).not.toThrow();
  expect(() => open(192_000, 60 * 96_000 + 1)).toThrow(
    "longer than 30 seconds at its sample rate of 192 kHz.",
  );
});
