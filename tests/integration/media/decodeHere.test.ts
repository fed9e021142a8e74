import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { describe, expect, it } from "vitest";
import { decodeHere } from "@/lib/server/media/decode";
import { findFfmpeg } from "@/lib/server/media/findFfmpeg";
import { inspectRecord } from "@/lib/server/media/inspectRecord";
import { makeListeningCopy } from "@/lib/server/media/listeningCopy";
import { aiff, bytesOf, commonChunk, soundChunk } from "../../unit/media/plainBytes";
import { amplitudeAt, refusal, scratch, tone } from "./records";

const ffmpeg = await findFfmpeg("ffmpeg");
const limits = { maxDurationSec: 60, timeLimitSec: 30, ffmpeg: "ffmpeg" };
const write = scratch();

describe("decoding", () => {
  it.each([
    ["tone.mp3", "mp3", "audio/mpeg", 44_100],
    ["tone.flac", "flac", "audio/flac", 44_100],
    ["tone-flac.oga", "flac", "audio/ogg", 44_100],
    ["tone.ogg", "ogg-vorbis", "audio/ogg", 44_100],
    ["tone.opus", "opus", "audio/ogg", 48_000],
  ] as const)("gives both channels of %s, whole", async (name, container, mediaType, rateHz) => {
    const fractions: number[] = [];
    // No ffmpeg: these must be read without.
    const audio = await decodeHere(tone(name), {
      ...limits,
      ffmpeg: null,
      onProgress: (at) => fractions.push(at),
    });
    expect(audio).toMatchObject({ container, mediaType, sampleRateHz: rateHz, sourceChannelCount: 2 });
    expect(audio.channels[0]!.length).toBe(Math.round(1.2 * rateHz));
    expect(audio.durationSec).toBeCloseTo(1.2, 6);
    const [left, right] = audio.channels as [Float32Array, Float32Array];
    expect(amplitudeAt(left, 440, rateHz)).toBeCloseTo(0.5, 1);
    expect(amplitudeAt(right, 660, rateHz)).toBeCloseTo(0.25, 1);
    expect(amplitudeAt(left, 660, rateHz)).toBeLessThan(0.01);
    expect(fractions.at(-1)).toBe(1);
  });

  it("gives one channel of a mono MP3 without a header frame", async () => {
    const audio = await decodeHere(tone("tone-mono.mp3"), { ...limits, ffmpeg: null });
    expect(audio.channels.length).toBe(1);
    expect(amplitudeAt(audio.channels[0]!, 440, 44_100)).toBeCloseTo(0.25, 1);
    expect(amplitudeAt(audio.channels[0]!, 660, 44_100)).toBeCloseTo(0.125, 1);
  });

  it("reads FLAC to the last bit: the samples are the sine that was put in", async () => {
    const { channels } = await decodeHere(tone("tone.flac"), limits);
    const worst = channels[0]!.reduce((most, sample, i) => {
      return Math.max(most, Math.abs(sample - 0.5 * Math.sin((2 * Math.PI * 440 * i) / 44_100)));
    }, 0);
    expect(worst).toBeLessThanOrEqual(1 / 32_768);
  });

  it.skipIf(ffmpeg === null).each([
    ["tone.m4a", "mp4", "audio/mp4"],
    ["tone-faststart.m4a", "mp4", "audio/mp4"],
    ["tone.webm", "matroska", "audio/webm"],
  ] as const)("has ffmpeg read %s", async (name, format, mediaType) => {
    const audio = await decodeHere(tone(name), limits);
    expect(audio).toMatchObject({ container: "ffmpeg", format, mediaType });
    expect(audio.durationSec).toBeGreaterThan(1.19);
    expect(audio.durationSec).toBeLessThan(1.25);
    expect(amplitudeAt(audio.channels[0]!, 440, audio.sampleRateHz)).toBeCloseTo(0.5, 1);
    expect(amplitudeAt(audio.channels[1]!, 660, audio.sampleRateHz)).toBeCloseTo(0.25, 1);
  });

  // ffmpeg has decoders of its own for these, so it is a second opinion on every sample.
  it.skipIf(ffmpeg === null).each(["tone.mp3", "tone.flac", "tone.ogg"])(
    "agrees with ffmpeg on %s",
    async (name) => {
      const { channels } = await decodeHere(tone(name), { ...limits, ffmpeg: null });
      const args = ["-v", "error", "-i", tone(name), "-f", "f32le", "-c:a", "pcm_f32le", "pipe:1"];
      const { stdout } = await promisify(execFile)(ffmpeg!, args, { encoding: "buffer", maxBuffer: 2 ** 26 });
      const other = new Float32Array(
        stdout.buffer.slice(stdout.byteOffset, stdout.byteOffset + stdout.length),
      );
      // At the very end the two cut off the encoder's padding differently.
      const frames = Math.min(other.length / 2, channels[0]!.length) - 1_152;
      let worst = 0;
      for (let i = 0; i < frames; i++) {
        for (const [c, channel] of channels.entries())
          worst = Math.max(worst, Math.abs(channel[i]! - other[2 * i + c]!));
      }
      expect(frames).toBeGreaterThan(50_000);
      expect(worst).toBeLessThan(2e-4);
    },
  );

  it("needs ffmpeg for M4A, and says so where there is none", async () => {
    expect(await refusal(decodeHere(tone("tone.m4a"), { ...limits, ffmpeg: null }))).toBe("needs-ffmpeg");
    const missing = { ...limits, ffmpeg: "no-such-program-here" };
    expect(await refusal(decodeHere(tone("tone.m4a"), missing))).toBe("needs-ffmpeg");
  });

  it("stops past the longest duration, whichever decoder reads", async () => {
    const names = [
      "tone.mp3",
      "tone.flac",
      "tone.ogg",
      "tone.opus",
      ...(ffmpeg ? ["tone.m4a", "tone.webm"] : []),
    ];
    for (const name of names) {
      expect(await refusal(decodeHere(tone(name), { ...limits, maxDurationSec: 0.1 }))).toBe("too-long");
    }
  });
});

describe("a listening copy", () => {
  it("holds the samples of the AIFF in WAV that browsers play", async () => {
    const samples = bytesOf([0x40, 0, 0xc0, 0, 0x20, 0, 0xe0, 0]);
    const from = await write("tiny.aiff", aiff("AIFF", commonChunk(2, 2, 16), soundChunk(samples)));
    const to = await write("copy.wav", new Uint8Array(0));
    const { byteCount } = await makeListeningCopy(from, to, limits);
    expect(byteCount).toBe(44 + 8);
    const copy = await decodeHere(to, limits);
    expect(copy).toMatchObject({ container: "wav", sampleRateHz: 44_100, bitsPerSample: 16 });
    expect(copy.channels.map((channel) => [...channel])).toEqual([
      [0.5, 0.25],
      [-0.5, -0.25],
    ]);
    const facts = await inspectRecord(to, { fileName: "copy.wav" }, { ...limits, maxBytes: 1_000 });
    expect(facts.playableInBrowsers).toBe(true);
  });

  it("keeps 24 bits", async () => {
    const from = await write(
      "tiny.aiff",
      aiff("AIFF", commonChunk(1, 1, 24), soundChunk(bytesOf([0x40, 0, 1]))),
    );
    const to = await write("copy.wav", new Uint8Array(0));
    await makeListeningCopy(from, to, limits);
    const copy = await decodeHere(to, limits);
    expect(copy.bitsPerSample).toBe(24);
    expect([...copy.channels[0]!]).toEqual([0x400001 / 0x800000]);
  });
});
