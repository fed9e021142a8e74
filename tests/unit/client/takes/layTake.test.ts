import { describe, expect, it } from "vitest";
import { CapturedSound } from "@/lib/client/takes/CapturedSound";
import { CHUNK_FRAMES, ChunkGatherer } from "@/lib/client/takes/ChunkGatherer";
import { LEAD_SEC, lastFrameOf, layTake, TAIL_SEC } from "@/lib/client/takes/layTake";
import { readWav } from "@/lib/client/takes/readWav";
import type { CapturedChunk } from "@/lib/client/takes/takeMessages";
import { secondOfRecord, secondOfTake } from "@/lib/contracts/takes";
import { encodeWav } from "@/lib/synth/encodeWav";

const RATE_HZ = 48_000;
const QUANTUM = 128;

/**
 * A player who hears the record and plays a click exactly on given seconds of it, by a device that comes late: the audio
 * thread's portions as they would come in. `sounding` says how the record went out.
 */
function playedAlong(
  clicksSec: readonly number[],
  sounding: { sec: number; atSec: number; speed: number },
  delaySec: number,
  firstFrame: number,
): CapturedSound {
  const sound = new CapturedSound();
  const gatherer = new ChunkGatherer((chunk) => sound.add(chunk));
  const clickFrames = new Set(
    clicksSec.map((sec) =>
      Math.round((sounding.atSec + (sec - sounding.sec) / sounding.speed + delaySec) * RATE_HZ),
    ),
  );
  for (let frame = firstFrame; frame < firstFrame + 12 * RATE_HZ; frame += QUANTUM) {
    const portion = new Float32Array(QUANTUM);
    for (let i = 0; i < QUANTUM; i++) if (clickFrames.has(frame + i)) portion[i] = 0.5;
    gatherer.take(frame, [portion]);
  }
  return sound;
}

describe("a take laid onto the record", () => {
  const sounding = { sec: 7.9, atSec: 2.345, speed: 1 };
  const stretch = { startSec: 8, endSec: 12 };

  it.each([
    { speed: 1, delaySec: 0 },
    { speed: 1, delaySec: 0.1437 },
    { speed: 0.6, delaySec: 0.051 },
    { speed: 1.25, delaySec: 0.2 },
  ])(
    "has what was played on the record's second under that second, at speed $speed and $delaySec s late",
    ({ speed, delaySec }) => {
      const clicks = [8, 9.25, 11.5];
      const heard = { ...sounding, speed };
      const sound = playedAlong(clicks, heard, delaySec, 64_000);
      const laid = layTake({
        ...stretch,
        sounding: heard,
        delaySec,
        rateHz: RATE_HZ,
        captured: { startFrame: sound.startFrame!, endFrame: sound.endFrame },
      })!;
      const [samples] = sound.cut(laid.fromFrame, laid.toFrame);
      const take = { startSec: stretch.startSec, leadSec: laid.leadSec, speed };
      const found = [...samples!.entries()].filter(([, value]) => value > 0.25).map(([at]) => at / RATE_HZ);
      expect(found).toHaveLength(clicks.length);
      for (const [index, sec] of clicks.entries()) {
        // Whole frames are cut and clicks lie on whole frames: half a frame each.
        expect(Math.abs(found[index]! - secondOfTake(take, sec))).toBeLessThanOrEqual(1.01 / RATE_HZ);
        expect(Math.abs(secondOfRecord(take, found[index]!) - sec)).toBeLessThanOrEqual(
          (1.01 * speed) / RATE_HZ,
        );
      }
    },
  );

  it("keeps a little before its start and after its end, and no more than was captured", () => {
    const order = { ...stretch, sounding, delaySec: 0.05, rateHz: RATE_HZ };
    const whole = layTake({ ...order, captured: { startFrame: 0, endFrame: 10 * RATE_HZ } })!;
    expect(whole.leadSec).toBeCloseTo(LEAD_SEC, 4);
    expect((whole.toFrame - whole.fromFrame) / RATE_HZ).toBeCloseTo(LEAD_SEC + 4 + TAIL_SEC, 4);
    expect(whole.toFrame).toBeLessThanOrEqual(
      lastFrameOf(sounding, { endSec: 12, delaySec: 0.05, rateHz: RATE_HZ }),
    );
    const begun = Math.round((sounding.atSec + 0.1) * RATE_HZ);
    const late = layTake({ ...order, captured: { startFrame: begun, endFrame: 4 * RATE_HZ } })!;
    expect(late.fromFrame).toBe(begun);
    expect(late.leadSec).toBeCloseTo(0.05, 3);
    expect(late.toFrame).toBe(4 * RATE_HZ);
    // What the device had not opened for is silence, and the start is there all the same.
    const later = layTake({ ...order, captured: { startFrame: 3 * RATE_HZ, endFrame: 4 * RATE_HZ } })!;
    expect(later.leadSec).toBeGreaterThanOrEqual(0);
    expect(later.leadSec).toBeLessThan(2 / RATE_HZ);
    expect(layTake({ ...order, captured: { startFrame: 0, endFrame: 1_000 } })).toBeNull();
  });
});

describe("captured sound", () => {
  const gathered = (feed: (gatherer: ChunkGatherer) => void) => {
    const chunks: CapturedChunk[] = [];
    feed(new ChunkGatherer((chunk) => chunks.push(chunk)));
    return chunks;
  };

  it("is handed over in chunks that say where they begin, also where the thread left portions out", () => {
    const portion = [new Float32Array(QUANTUM).fill(0.25)];
    const chunks = gathered((gatherer) => {
      for (let at = 0; at < CHUNK_FRAMES + QUANTUM; at += QUANTUM) gatherer.take(1_024 + at, portion);
      gatherer.take(90_112, portion);
      gatherer.take(90_240, []);
      for (let at = 0; at < CHUNK_FRAMES; at += QUANTUM) gatherer.take(90_368 + at, portion);
    });
    expect(chunks.map(({ atFrame, channels }) => [atFrame, channels[0]!.length])).toEqual([
      [1_024, CHUNK_FRAMES],
      [1_024 + CHUNK_FRAMES, QUANTUM],
      [90_112, CHUNK_FRAMES],
    ]);
    const sound = new CapturedSound();
    for (const chunk of chunks) sound.add(chunk);
    // Nothing was connected for one portion, and nothing at all came for a while.
    const [cut] = sound.cut(90_112 - 10, 90_112 + 3 * QUANTUM);
    expect([cut![9], cut![10]! > 0.2, cut![10 + QUANTUM], cut![10 + 2 * QUANTUM]! > 0.2]).toEqual([
      0,
      true,
      0,
      true,
    ]);
  });

  it("is one channel where both are the same or one is empty, else two", () => {
    const ramp = Float32Array.from({ length: QUANTUM }, (_, i) => i / QUANTUM - 0.5);
    const flat = new Float32Array(QUANTUM).fill(0.1);
    const none = new Float32Array(QUANTUM);
    const channelsOf = (left: Float32Array<ArrayBuffer>, right: Float32Array<ArrayBuffer>) => {
      const sound = new CapturedSound();
      sound.add({ atFrame: 0, channels: [left, right] });
      return sound.cut(0, QUANTUM);
    };
    expect(channelsOf(ramp, ramp.slice())).toHaveLength(1);
    expect(channelsOf(ramp, flat)).toHaveLength(2);
    const [line] = channelsOf(none, ramp);
    expect(channelsOf(none, ramp)).toHaveLength(1);
    expect(line![0]).toBeCloseTo(-0.5, 4);
  });

  it("comes back from its file sample for sample", () => {
    const sound = new CapturedSound();
    sound.add({ atFrame: 0, channels: [Float32Array.from([0, 0.5, -0.5, 1, -1])] });
    const cut = sound.cut(0, 5);
    const read = readWav(encodeWav(cut, RATE_HZ).buffer);
    expect(read.sampleRateHz).toBe(RATE_HZ);
    expect(read.channels.map((channel) => [...channel])).toEqual(cut.map((channel) => [...channel]));
    expect(() => readWav(new ArrayBuffer(20))).toThrow(RangeError);
    expect(() => readWav(encodeWav(cut, RATE_HZ).buffer.slice(0, 47))).toThrow("damaged");
  });
});
