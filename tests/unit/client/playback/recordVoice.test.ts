import { beforeAll, describe, expect, it } from "vitest";
import type { Loop, LoopManner } from "@/lib/client/playback/playbackMessages";
import { LISTENING_AT_FIRST } from "@/lib/document/records/ListeningSettings";
import { greatestStep, listen, PORTION, pace, play, RATE_HZ, tell, tone, voiceOf } from "./playing";

const loop = (loop: Loop | null) => ({ kind: "loop", loop, timesThrough: 0 }) as const;
const manner = (fields: Partial<LoopManner>) =>
  ({ kind: "manner", manner: { ...LISTENING_AT_FIRST, ...fields } }) as const;
const BEATS = {
  beatsSec: Array.from({ length: 16 }, (_, index) => 0.5 * index),
  inBar: Array.from({ length: 16 }, (_, index) => (index % 4) + 1),
  beatsPerBar: 4,
};
/** Each second of it another pitch, the right channel half as loud. */
let left: Float32Array;
let right: Float32Array;

beforeAll(() => {
  left = new Float32Array(8 * RATE_HZ);
  for (let sec = 0; sec < 8; sec += 1) left.set(tone(200 + 50 * sec, 1), sec * RATE_HZ);
  // In steps of 16 bits, as a record has them.
  left = left.map((sample) => Math.round(sample * 32_767) / 32_767);
  right = left.map((sample) => Math.round((sample * 32_767) / 2) / 32_767);
});

function greatestDifference(a: Float32Array, b: Float32Array, from: number): number {
  return a.subarray(from).reduce((most, sample, at) => Math.max(most, Math.abs(sample - b[from + at]!)), 0);
}

const opened = () => voiceOf([left, right]);
/** When clicks begin, in seconds of what is heard. */
function onsets(clicks: Float32Array): number[] {
  const found: number[] = [];
  for (let index = 0; index < clicks.length; index += 1)
    if (Math.abs(clicks[index]!) > 0.02 && index / RATE_HZ > (found.at(-1) ?? -1) + 0.1)
      found.push(index / RATE_HZ);
  return found;
}

describe("a record that is played from memory", () => {
  it("is its own samples, to the last bit of sixteen, at its own speed and pitch, from the frame that was asked for", async () => {
    const voice = await opened();
    tell(voice, play(1.25));
    const heard = listen(voice, RATE_HZ);
    // It fades in over 5 ms.
    expect(greatestDifference(heard.left, left.subarray(1.25 * RATE_HZ), 300)).toBeLessThan(1e-6);
    expect(greatestDifference(heard.right, right.subarray(1.25 * RATE_HZ), 300)).toBeLessThan(1e-6);
    expect(voice.now()).toMatchObject({ isPlaying: true, isSounding: true, sec: 2.25 });
  });

  it("comes out alike in portions of any size", async () => {
    const portions = [PORTION, 96, 1024];
    const all = await Promise.all(
      portions.map(async (portion) => {
        const voice = await opened();
        tell(voice, manner({ seamMs: 30 }), loop({ startSec: 1, endSec: 1.4 }), play(1));
        return listen(voice, 2 * RATE_HZ, portion).left;
      }),
    );
    for (const other of all.slice(1)) expect(greatestDifference(all[0]!, other, 0)).toBe(0);
  });

  it("stands where it was paused, and goes on from there", async () => {
    const voice = await opened();
    tell(voice, play(2));
    listen(voice, RATE_HZ / 2);
    tell(voice, { kind: "pause", sec: voice.now().sec });
    const after = listen(voice, RATE_HZ / 10);
    expect(after.left.subarray(500).every((sample) => sample === 0)).toBe(true);
    expect(voice.now()).toMatchObject({ isPlaying: false, isSounding: false, sec: 2.5 });
    tell(voice, { kind: "seek", sec: 4 });
    expect(voice.now().sec).toBe(4);
  });

  it("ends with the record, and says so", async () => {
    const voice = await opened();
    tell(voice, pace(1.5), play(7.5));
    listen(voice, RATE_HZ);
    expect(voice.now()).toMatchObject({ isPlaying: false, isEnded: true, sec: 8 });
  });

  it.each([0.2, 0.5, 0.75, 1, 1.25, 1.5])("is where it says at %f of its speed", async (speed) => {
    const voice = await opened();
    tell(voice, pace(speed), play(1));
    // Until the stretch is under way it stands.
    while (!voice.now().isSounding) listen(voice, PORTION);
    const beganSec = voice.now().sec;
    listen(voice, 2 * RATE_HZ);
    expect(voice.now().sec - beganSec).toBeCloseTo(2 * speed, 4);
    expect(beganSec).toBeLessThan(1 + 2 * (PORTION / RATE_HZ) * speed);
  });

  it("begins within 20 ms of the key, stretched too", async () => {
    const voice = await opened();
    tell(voice, pace(0.5, 200), play(3));
    const { left: heard } = listen(voice, RATE_HZ / 10);
    expect(heard.findIndex((sample) => Math.abs(sample) > 0.05) / RATE_HZ).toBeLessThan(0.02);
  });

  it("makes no step where its speed, its pitch or its place change as it plays", async () => {
    const voice = await opened();
    tell(voice, play(1));
    const own = greatestStep(left);
    for (const command of [
      pace(0.9),
      pace(0.6),
      pace(0.6, -300),
      pace(1),
      { kind: "seek", sec: 5.05 } as const,
      pace(1, 50),
      { kind: "seek", sec: 2.02 } as const,
    ]) {
      tell(voice, command);
      const { left: heard } = listen(voice, RATE_HZ / 4);
      expect(greatestStep(heard)).toBeLessThan(own * 1.5);
    }
  });
});

describe("a loop", () => {
  it("goes round in its own length, and counts", async () => {
    const voice = await opened();
    tell(voice, manner({}), loop({ startSec: 2, endSec: 2.6 }), play(2));
    listen(voice, Math.round(0.6 * 3.5 * RATE_HZ));
    expect(voice.now().timesThrough).toBe(3);
    expect(voice.now().sec).toBeCloseTo(2.3, 3);
  });

  it("goes round stretched, and is left within what was read ahead", async () => {
    const voice = await opened();
    tell(voice, pace(0.5), manner({}), loop({ startSec: 2, endSec: 2.6 }), play(2));
    while (!voice.now().isSounding) listen(voice, PORTION);
    listen(voice, Math.round(1.17 * RATE_HZ));
    expect(voice.now().timesThrough).toBe(0);
    // The beginning was read already: without the loop it is not heard.
    tell(voice, loop(null));
    listen(voice, Math.round(0.2 * RATE_HZ));
    expect(voice.now().sec).toBeCloseTo(2.6 + 0.085, 1);
    expect(voice.now().sec).toBeGreaterThan(2.6);
  });

  it("waits its gap, counts a bar in at the speed it has, and begins before its start where that is wanted", async () => {
    const voice = await opened();
    tell(
      voice,
      { kind: "beats", beats: BEATS },
      manner({ gapSec: 0.25, countInBars: 1, preRollSec: 0.5 }),
      loop({ startSec: 2, endSec: 3 }),
      play(1.5, true),
    );
    const first = listen(voice, 2 * RATE_HZ);
    const times = onsets(first.clicks);
    expect(times).toHaveLength(4);
    for (const [index, sec] of times.entries()) expect(sec).toBeCloseTo(0.5 * index, 2);
    expect(first.left.every((sample) => sample === 0)).toBe(true);
    // 1.5 s of the loop with what leads in, a quarter of silence, then the count of two seconds.
    const round = listen(voice, Math.round((1.5 + 0.25 + 2) * RATE_HZ));
    expect(voice.now().timesThrough).toBe(1);
    const again = onsets(round.clicks);
    expect(again).toHaveLength(4);
    expect(again[0]).toBeCloseTo(1.75, 2);
    const silent = round.left.subarray(Math.round(1.52 * RATE_HZ));
    expect(silent.every((sample) => sample === 0)).toBe(true);
    expect(greatestStep(round.left)).toBeLessThan(greatestStep(left) * 1.5);
  });

  it("counts on at another speed that is set meanwhile, and begins when the next beat would come", async () => {
    const voice = await opened();
    tell(
      voice,
      { kind: "beats", beats: BEATS },
      manner({ countInBars: 1 }),
      loop({ startSec: 2, endSec: 3 }),
      play(2, true),
    );
    expect(onsets(listen(voice, Math.round(0.6 * RATE_HZ)).clicks)).toHaveLength(2);
    tell(voice, pace(0.5));
    // The third click lay 0.4 s ahead: at half the speed 0.8 s, and the others a second apart.
    const slow = listen(voice, Math.round(2.79 * RATE_HZ));
    const times = onsets(slow.clicks);
    expect(times).toHaveLength(2);
    expect(times[0]).toBeCloseTo(0.8, 2);
    expect(times[1]).toBeCloseTo(1.8, 2);
    expect(slow.left.every((sample) => sample === 0)).toBe(true);
    listen(voice, Math.round(0.05 * RATE_HZ));
    expect(voice.now().isSounding).toBe(true);
  });

  it("keeps its gap as long as it is where the speed changes in it, and counts at the new one", async () => {
    const voice = await opened();
    tell(
      voice,
      { kind: "beats", beats: BEATS },
      manner({ gapSec: 0.5, countInBars: 1 }),
      loop({ startSec: 2, endSec: 3 }),
      play(2),
    );
    while (voice.now().timesThrough === 0) listen(voice, PORTION);
    tell(voice, pace(2));
    const times = onsets(listen(voice, Math.round(1.4 * RATE_HZ)).clicks);
    expect(times).toHaveLength(4);
    for (const [index, sec] of times.entries()) expect(sec).toBeCloseTo(0.5 + 0.25 * index, 2);
  });

  it("grows faster by its ladder, and no faster than its end", async () => {
    const voice = await opened();
    const ladder = { isOn: true, startSpeed: 0.8, stepSpeed: 0.1, times: 2, endSpeed: 1 };
    tell(voice, pace(0.8), manner({ ladder }), loop({ startSec: 2, endSec: 2.5 }), play(2));
    const speeds: number[] = [];
    for (let round = 0; round < 7; round += 1) {
      while (voice.now().timesThrough === round) listen(voice, PORTION);
      speeds.push(voice.now().speed);
    }
    expect(speeds).toEqual([0.8, 0.9, 0.9, 1, 1, 1, 1]);
  });
});

describe("clicks on the beats", () => {
  it.each([1, 0.5])("come when each beat is heard, at %f of the speed, in a loop too", async (speed) => {
    const voice = await opened();
    tell(
      voice,
      { kind: "beats", beats: BEATS },
      { kind: "clicks", isOn: true },
      pace(speed),
      manner({}),
      loop({ startSec: 2, endSec: 4 }),
      play(2),
    );
    while (!voice.now().isSounding) listen(voice, 16, 16);
    const startSec = (2 - voice.now().sec) / speed;
    const times = onsets(listen(voice, Math.round((3.9 / speed) * RATE_HZ)).clicks);
    const wanted = Array.from({ length: 8 }, (_, index) => startSec + (0.5 * index) / speed).filter(
      (sec) => sec > -0.01,
    );
    expect(times).toHaveLength(wanted.length);
    for (const [index, sec] of wanted.entries()) expect(times[index]).toBeCloseTo(sec, 2);
  });
});
