import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { findFfmpeg } from "@/lib/server/media/findFfmpeg";
import { inspectHere } from "@/lib/server/media/inspectHere";
import { inspectRecord } from "@/lib/server/media/inspectRecord";
import { MediaError } from "@/lib/server/media/MediaError";
import { aiff, bytesOf, commonChunk, sine16, sineWav, soundChunk } from "../../unit/media/plainBytes";
import { refusal, scratch, tone, toneBytes } from "./records";

const limits = { maxBytes: 10_000_000, maxDurationSec: 60, timeLimitSec: 30 };
const ffmpeg = await findFfmpeg("ffmpeg");
const write = scratch();

/** Writes the bytes under a name and asks what becomes of them; in this thread, which is quicker to start. */
async function verdict(name: string, bytes: Uint8Array, mediaType?: string): Promise<string> {
  const options = { ...limits, ffmpeg: "ffmpeg" };
  return refusal(inspectHere(await write(name, bytes), { fileName: name, mediaType }, options));
}

/** Every kind that is read without ffmpeg, and by ffmpeg where there is one. */
const READ = [
  "tone.mp3",
  "tone-mono.mp3",
  "tone.flac",
  "tone-flac.oga",
  "tone.ogg",
  "tone.opus",
  ...(ffmpeg ? ["tone.m4a", "tone-faststart.m4a", "tone.webm"] : []),
];

describe("a record that someone adds", () => {
  it("is told in facts", async () => {
    const facts = await inspectRecord(
      tone("tone.flac"),
      { fileName: "Tone.FLAC", mediaType: "audio/flac" },
      limits,
    );
    expect(facts).toMatchObject({
      channelCount: 2,
      sampleRateHz: 44_100,
      container: "flac",
      mediaType: "audio/flac",
      playableInBrowsers: true,
      bitsPerSample: 16,
    });
    expect(facts.durationSec).toBeCloseTo(1.2, 6);
    // Half of full scale.
    expect(facts.peakDbfs).toBeCloseTo(20 * Math.log10(0.5), 2);
  });

  it("needs a listening copy when it is AIFF", async () => {
    const frames = 4_410;
    const samples = sine16(frames, 440, 0.5);
    const bytes = aiff("AIFC", commonChunk(1, frames, 16, "sowt"), soundChunk(samples));
    const facts = await inspectRecord(await write("a.aif", bytes), { fileName: "a.aif" }, limits);
    expect(facts).toMatchObject({ container: "aiff", mediaType: "audio/aiff", playableInBrowsers: false });
  });

  it("is refused when it is no sound", async () => {
    const text = bytesOf("To be played slowly, with feeling.\n".repeat(200));
    expect(await verdict("notes.txt", text)).toBe("not-audio");
    expect(await verdict("song.mp3", text, "audio/mpeg")).toBe("not-audio");
    expect(await verdict("song.wav", await readFile("public/icon.svg"))).toBe("not-audio");
    expect(
      await verdict(
        "song.wav",
        Uint8Array.from({ length: 50_000 }, (_, i) => (i * i * 31 + i) % 251),
      ),
    ).toBe("not-audio");
    expect(await verdict("song.mp3", new Uint8Array(5_000))).toBe("not-audio");
    // A playlist must never make anything read another file.
    const playlist = `#EXTM3U\n#EXT-X-TARGETDURATION:10\n#EXTINF:10,\nfile://${tone("tone.m4a")}\n#EXT-X-ENDLIST\n`;
    expect(await verdict("song.m3u8", bytesOf(playlist))).toBe("not-audio");
  });

  it("is refused when it is empty", async () => {
    expect(await verdict("song.wav", new Uint8Array(0))).toBe("empty");
    const file = await write("song.wav", new Uint8Array(0));
    expect(await refusal(inspectRecord(file, { fileName: "song.wav" }, limits))).toBe("empty");
  });

  it.each(READ)("is refused when %s is cut short, wherever", async (name) => {
    const bytes = await toneBytes(name);
    for (const share of [0.3, 0.6, 0.9]) {
      expect(await verdict(name, bytes.subarray(0, Math.floor(bytes.length * share)))).toBe("cut-short");
    }
  });

  it.each(["tone.mp3", "tone-mono.mp3", "tone.flac", "tone-flac.oga", "tone.ogg", "tone.opus"])(
    "is refused when only the last byte of %s is missing",
    async (name) => {
      const bytes = await toneBytes(name);
      expect(await verdict(name, bytes)).toBe("none");
      expect(await verdict(name, bytes.subarray(0, bytes.length - 1))).toBe("cut-short");
    },
  );

  it.each(["tone.flac", "tone-flac.oga", "tone.ogg", "tone.opus"])(
    "is refused when %s is damaged",
    async (name) => {
      const bytes = await toneBytes(name);
      const middle = Math.floor(bytes.length / 2);
      for (let i = middle; i < middle + 40; i++) bytes[i]! ^= 0x5a;
      expect(await verdict(name, bytes)).toBe("damaged");
    },
  );

  it("is refused when its name or its type says another kind", async () => {
    const wav = sineWav(0.2, 0.5);
    expect(await verdict("song.mp3", wav)).toBe("wrong-type");
    expect(await verdict("song", wav, "audio/flac")).toBe("wrong-type");
    expect(await verdict("song.wav", await toneBytes("tone.mp3"))).toBe("wrong-type");
    expect(await verdict("picture.png", wav, "image/png")).toBe("wrong-type");
    expect(await verdict("song.wav", wav, "audio/x-wav")).toBe("none");
    const fault = await inspectRecord(await write("x", wav), { fileName: "x.mp3" }, limits).catch(
      (e: unknown) => e,
    );
    expect(fault).toBeInstanceOf(MediaError);
    expect((fault as MediaError).message).toContain("named as MP3 but is WAV");
  });

  it("is refused when it is silent: below -60 dB of full scale throughout", async () => {
    expect(await verdict("song.wav", sineWav(0.5, 0))).toBe("silent");
    expect(await verdict("song.wav", sineWav(0.5, 0.0009))).toBe("silent");
    expect(await verdict("song.wav", sineWav(0.5, 0.0012))).toBe("none");
  });

  it("is refused when it is too large or too long, with the limit in words", async () => {
    const file = await write("song.wav", sineWav(2, 0.5));
    const declared = { fileName: "song.wav" };
    const large = await inspectRecord(file, declared, { ...limits, maxBytes: 100_000 }).catch(
      (e: unknown) => e,
    );
    expect(large).toMatchObject({ code: "too-large", details: { limit: "0.1 MB" } });
    const long = await inspectRecord(file, declared, { ...limits, maxDurationSec: 1 }).catch(
      (e: unknown) => e,
    );
    expect(long).toMatchObject({ code: "too-long", details: { limit: "1 seconds" } });
  });

  it("keeps its tags: ID3 in front and behind does not matter", async () => {
    const front = bytesOf("ID3", [4, 0, 0, 0, 0, 2, 0], new Uint8Array(256));
    const behind = bytesOf("TAG", new Uint8Array(125));
    for (const name of ["tone.mp3", "tone-mono.mp3"]) {
      expect(await verdict(name, bytesOf(front, await toneBytes(name), behind))).toBe("none");
    }
    expect(await verdict("tone.flac", bytesOf(front, await toneBytes("tone.flac")))).toBe("none");
  });
});
