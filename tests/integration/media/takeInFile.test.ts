import { describe, expect, it } from "vitest";
import type { ReadableSignal } from "@/lib/dsp/ReadableSignal";
import { RecordIntake, type RecordSignal } from "@/lib/hearing/RecordIntake";
import { decodeHere } from "@/lib/server/media/decode";
import { findFfmpeg } from "@/lib/server/media/findFfmpeg";
import { takeInFile } from "@/lib/server/media/takeInFile";
import { aiff, commonChunk, sine16, sineWav, soundChunk } from "../../unit/media/plainBytes";
import { refusal, scratch, tone } from "./records";

const limits = { maxDurationSec: 60, timeLimitSec: 30 };
const ffmpeg = await findFfmpeg("ffmpeg");
const write = scratch();

function samplesOf(signal: ReadableSignal): Float32Array {
  return signal.read(0, new Float32Array(signal.length));
}

/** Place of the first sample that differs, first in what channels share, then in their side; -1 where none does. */
function firstDifference(found: RecordSignal, wanted: RecordSignal): number {
  if (!found.side !== !wanted.side) return 0;
  for (const [one, other] of [
    [found.signal, wanted.signal],
    [found.side, wanted.side],
  ]) {
    if (!one || !other) continue;
    const [a, b] = [samplesOf(one), samplesOf(other)];
    const at = a.length === b.length ? a.findIndex((value, i) => value !== b[i]) : a.length;
    if (at >= 0) return at;
  }
  return -1;
}

/** The same record decoded as a whole first. */
async function takenInWhole(path: string): Promise<RecordSignal> {
  const { channels, sampleRateHz } = await decodeHere(path, { ...limits, ffmpeg: "ffmpeg" });
  const intake = new RecordIntake(sampleRateHz);
  intake.take(channels, channels[0]!.length);
  return intake.finish();
}

describe("a record taken in for the ear while it is decoded", () => {
  const names = ["tone.mp3", "tone-mono.mp3", "tone.flac", "tone-flac.oga", "tone.ogg", "tone.opus"];
  it.each([...names, ...(ffmpeg ? ["tone.m4a", "tone.webm"] : [])])(
    "is that of %s decoded whole",
    async (name) => {
      const found = await takeInFile(tone(name), limits);
      const wanted = await takenInWhole(tone(name));
      expect(found.durationSec).toBe(wanted.durationSec);
      expect(found.signal.sampleRateHz).toBe(22_050);
      expect(firstDifference(found, wanted)).toBe(-1);
    },
  );

  it("is that of a WAV and an AIFF that take several readings from the disk", async () => {
    const frames = 20 * 44_100;
    const big = sine16(frames, 440, 0.5).map((_, i, all) => all[i ^ 1]!);
    const paths = [
      await write("long.wav", sineWav(20, 0.5)),
      await write("long.aiff", aiff("AIFF", commonChunk(1, frames, 16), soundChunk(big))),
    ];
    const [wav, same] = await Promise.all(paths.map((path) => takeInFile(path, limits)));
    expect(firstDifference(wav!, await takenInWhole(paths[0]!))).toBe(-1);
    expect(firstDifference(same!, await takenInWhole(paths[1]!))).toBe(-1);
    expect(wav!.signal.length).toBe(20 * 22_050);
  });

  it("has a side where left and right differ", async () => {
    const record = await takeInFile(tone("tone.flac"), limits);
    expect(record.side?.length).toBe(record.signal.length);
    expect((await takeInFile(tone("tone-mono.mp3"), limits)).side).toBeNull();
  });

  it("is refused as decoding refuses it", async () => {
    expect(await refusal(takeInFile(tone("tone.mp3"), { ...limits, maxDurationSec: 0.1 }))).toBe("too-long");
    expect(await refusal(takeInFile(await write("no.mp3", new Uint8Array(9)), limits))).toBe("not-audio");
  });

  it("ends at the time limit and when told to", async () => {
    expect(await refusal(takeInFile(tone("tone.mp3"), { ...limits, timeLimitSec: 0.001 }))).toBe(
      "time-limit",
    );
    const reason = new Error("no longer wanted");
    const stop = new AbortController();
    const takingIn = takeInFile(tone("tone.mp3"), { ...limits, signal: stop.signal });
    stop.abort(reason);
    await expect(takingIn).rejects.toBe(reason);
    await expect(takeInFile(tone("tone.mp3"), { ...limits, signal: stop.signal })).rejects.toBe(reason);
  });

  it("tells how far it is, and leaves the event loop free", async () => {
    let turns = 0;
    const timer = setInterval(() => {
      turns += 1;
    }, 5);
    const fractions: number[] = [];
    const file = await write("long.wav", sineWav(30, 0.5));
    await takeInFile(file, { ...limits, onProgress: (at) => fractions.push(at) });
    clearInterval(timer);
    expect(turns).toBeGreaterThan(3);
    expect(fractions.at(-1)).toBe(1);
  });

  it("needs ffmpeg for M4A, and says so where there is none", async () => {
    expect(await refusal(takeInFile(tone("tone.m4a"), { ...limits, ffmpeg: null }))).toBe("needs-ffmpeg");
    const missing = { ...limits, ffmpeg: "no-such-program-here" };
    expect(await refusal(takeInFile(tone("tone.m4a"), missing))).toBe("needs-ffmpeg");
  });
});
