import { describe, expect, it } from "vitest";
import { hear, hearRecord } from "@/lib/hearing/hear";
import { RecordIntake, type RecordSignal } from "@/lib/hearing/RecordIntake";
import { addClicks, addTones, chordNotes, silence } from "./band";

const RATE_HZ = 44_100;

function takenIn(channels: Float32Array[], block: number, rateHz = RATE_HZ): RecordSignal {
  const intake = new RecordIntake(rateHz);
  const length = channels[0]!.length;
  for (let at = 0; at < length; at += block) {
    const count = Math.min(block, length - at);
    intake.take(
      channels.map((channel) => channel.subarray(at, at + count)),
      count,
    );
  }
  return intake.finish();
}

function samplesOf({ signal }: RecordSignal): Float32Array {
  return signal.read(0, new Float32Array(signal.length));
}

function sideOf({ side }: RecordSignal): Float32Array {
  return side!.read(0, new Float32Array(side!.length));
}

/** Two bars of a chord each, with clicks, at RATE_HZ though the band's own rate is lower: it then sounds higher. */
function song(): Float32Array {
  const chords = [
    { bass: 43, upper: [59, 62, 67], beats: 8 },
    { bass: 36, upper: [60, 64, 67], beats: 8 },
  ];
  const samples = addTones(silence(8), chordNotes(chords, 0.5));
  return addClicks(
    samples,
    Array.from({ length: 16 }, (_, i) => i / 2),
    (i) => (i % 4 === 0 ? 0.3 : 0.15),
  );
}

describe("a record taken in block by block", () => {
  const left = song();
  const right = left.map((value, n) => 0.5 * value + 0.1 * Math.sin(n));

  it("is the same however it is cut into blocks", () => {
    const whole = takenIn([left, right], left.length);
    for (const block of [997, 4096, 100_000]) {
      const cut = takenIn([left, right], block);
      expect(cut.durationSec).toBe(whole.durationSec);
      expect(samplesOf(cut)).toEqual(samplesOf(whole));
      expect(sideOf(cut)).toEqual(sideOf(whole));
    }
  });

  it("keeps half of what the left has more than the right, by the same factor as the average", () => {
    const record = takenIn([left, right], 5000);
    const mid = left.map((value, n) => (value + right[n]!) / 2);
    const half = left.map((value, n) => (value - right[n]!) / 2);
    const levelOf = (samples: Float32Array) =>
      Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / samples.length);
    expect(record.side!.length).toBe(record.signal.length);
    // Taken alone, the difference comes at a level of 0.1 like any other sound.
    const factor = levelOf(half) / levelOf(mid);
    const wanted = samplesOf(takenIn([half], 5000)).map((value) => factor * value);
    sideOf(record).forEach((value, n) => {
      if (n % 100 === 0) expect(value).toBeCloseTo(wanted[n]!, 4);
    });
    // Channels that change places turn it round.
    const swapped = sideOf(takenIn([right, left], 5000));
    expect(swapped).toEqual(sideOf(record).map((value) => 0 - value));
  });

  it("keeps the side in step where two channels part only later", () => {
    const parted = left.map((value, n) => (n < 100_000 ? value : right[n]!));
    const record = takenIn([left, parted], 5000);
    const side = sideOf(record);
    expect(side.subarray(0, 49_900).every((value) => value === 0)).toBe(true);
    expect(side.subarray(50_100).some((value) => Math.abs(value) > 0.01)).toBe(true);
    expect(side.length).toBe(record.signal.length);
  });

  it("has no side in mono, nor where two channels are alike or nearly so (under -60 dB), nor in more than two", () => {
    const tiny = (share: number) => left.map((value, n) => value + share * Math.sin(n / 3));
    const level = Math.sqrt(left.reduce((sum, value) => sum + value * value, 0) / left.length);
    // A sine of amplitude a has a root mean square of a / sqrt(2); the side is half of it.
    const at = (decibels: number) => tiny(2 * Math.SQRT2 * level * 10 ** (decibels / 20));
    for (const channels of [[left], [left, left], [left, at(-63)], [left, right, right]])
      expect(takenIn(channels, 5000).side).toBeNull();
    expect(takenIn([left, at(-57)], 5000).side).not.toBeNull();
  });

  it("gives up both when it is heard", () => {
    const record = takenIn([left, right], 5000);
    hearRecord(record);
    expect([record.signal.length, record.side!.length]).toEqual([0, 0]);
  });

  it("is heard as the whole is heard", () => {
    expect(hearRecord(takenIn([left], 1234))).toEqual(hear(left, RATE_HZ));
  });

  it("is the average of its channels, at a root-mean-square level of 0.1", () => {
    const mono = left.map((value, n) => (value + right[n]!) / 2);
    expect(samplesOf(takenIn([left, right], 5000))).toEqual(samplesOf(takenIn([mono], 5000)));
    const three = samplesOf(takenIn([left, right, right], 5000));
    const wanted = samplesOf(takenIn([left.map((value, n) => (value + 2 * right[n]!) / 3)], 5000));
    three.forEach((value, n) => {
      if (n % 100 === 0) expect(value).toBeCloseTo(wanted[n]!, 5);
    });
    const tone = Float32Array.from({ length: RATE_HZ }, (_, n) => 0.01 * Math.sin(n / 50));
    const heard = samplesOf(takenIn([tone], 5000));
    const power = heard.reduce((sum, value) => sum + value * value, 0) / heard.length;
    expect(Math.sqrt(power)).toBeCloseTo(0.1, 3);
  });

  it("stays silent where it is silent", () => {
    expect(samplesOf(takenIn([new Float32Array(5000)], 1000)).every((value) => value === 0)).toBe(true);
    // Channels that cancel one another leave nothing to hear.
    const one = new Float32Array(5000).fill(0.1);
    const opposed = takenIn([one, one.map((value) => -value)], 1000);
    expect(samplesOf(opposed).every((value) => value === 0)).toBe(true);
    expect(opposed.side).toBeNull();
  });

  it("is refused where nothing can be heard in it", () => {
    expect(() => new RecordIntake(3000)).toThrow(/at least 4000 Hz/);
    expect(() => new RecordIntake(RATE_HZ).finish()).toThrow(/no samples/);
    expect(() => takenIn([Float32Array.of(0, Number.NaN)], 2)).toThrow(/no numbers/);
  });
});
