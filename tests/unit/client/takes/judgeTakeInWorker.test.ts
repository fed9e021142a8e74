import { describe, expect, it } from "vitest";
import type { JudgeOrder, JudgeWord } from "@/lib/client/takes/judgeMessages";
import { judgeMoved } from "@/lib/client/takes/judgeMoved";
import { judgeTakeInWorker } from "@/lib/client/takes/judgeTakeInWorker";
import { playedTake, TAKE_RATE_HZ } from "../../../quality/takes/playedTake";
import { judgedTake } from "./judgedTakes";

/** Stands for a worker: keeps what it is sent, and says what the test says. */
class FakeWorker {
  onmessage: ((event: { data: JudgeWord }) => void) | null = null;
  onerror: (() => void) | null = null;
  isEnded = false;
  order: JudgeOrder | null = null;

  postMessage(order: JudgeOrder): void {
    this.order = order;
  }
  terminate(): void {
    this.isEnded = true;
  }
  say(data: JudgeWord): void {
    this.onmessage?.({ data });
  }
}

const take = {
  ...{ startSec: 10, endSec: 12, speed: 1, leadSec: 0.3, sampleRateHz: 48_000, shiftCents: -200 },
  channels: [Float32Array.of(0.2, 0.4), Float32Array.of(0, 0.2)],
};

function begun(options: { signal?: AbortSignal } = {}) {
  const worker = new FakeWorker();
  const fractions: number[] = [];
  const judged = judgeTakeInWorker(take, [], 8, {
    ...options,
    start: () => worker as unknown as Worker,
    onProgress: (fraction) => fractions.push(fraction),
  });
  return { worker, fractions, judged };
}

describe("judging in a worker", () => {
  it("sends the average of the channels, how it lies, and how it was tuned when it was heard", () => {
    const { worker } = begun();
    expect([...worker.order!.take.samples].map((each) => each.toFixed(3))).toEqual(["0.100", "0.300"]);
    expect(worker.order).toMatchObject({ take: { startSec: 10, leadSec: 0.3 }, tuningCents: -192 });
    expect(take.channels[0]).toHaveLength(2);
  });

  it("tells how far it is, then the verdict, and ends its worker", async () => {
    const { worker, fractions, judged } = begun();
    worker.say({ kind: "progress", fraction: 0.5 });
    const verdict = judgedTake([]);
    worker.say({ kind: "judged", judged: verdict });
    expect(await judged).toBe(verdict);
    expect(fractions).toEqual([0.5]);
    expect(worker.isEnded).toBe(true);
  });

  it("says in words why there is none, and that the take is kept", async () => {
    const fault = begun();
    fault.worker.say({ kind: "fault", why: "The record holds no samples." });
    await expect(fault.judged).rejects.toThrow(/no samples.*kept/);
    const unstarted = begun();
    unstarted.worker.onerror?.();
    await expect(unstarted.judged).rejects.toThrow(/did not start.*kept/);
    expect(fault.worker.isEnded && unstarted.worker.isEnded).toBe(true);
  });

  it("ends at once where it is given up", async () => {
    const scope = new AbortController();
    const { worker, judged } = begun({ signal: scope.signal });
    scope.abort(new Error("given up"));
    await expect(judged).rejects.toThrow("given up");
    expect(worker.isEnded).toBe(true);
    await expect(begun({ signal: scope.signal }).judged).rejects.toThrow("given up");
  });
});

describe("a take to a record that was heard transposed", () => {
  it("is judged where it stands, and told in the part's own pitches", () => {
    const strokes = [60, 64, 62].map((midi, at) => ({
      eventId: `e${at}`,
      startSec: 0.4 + 0.5 * at,
      notes: [{ midi, endSec: 0.88 + 0.5 * at, glides: [] }],
    }));
    const { samples } = playedTake(strokes, {
      ...{ seed: 4, tuningCents: 215, noiseDb: -45 },
      slips: [{ kind: "wrong", at: 1, note: 0, by: 1 }],
    });
    const sound = { samples, sampleRateHz: TAKE_RATE_HZ, startSec: 0, endSec: 2, speed: 1, leadSec: 0 };
    const judged = judgeMoved({ take: sound, strokes, tuningCents: 215 });
    expect(judged.strokes.map(({ verdict }) => verdict)).toEqual(["found", "other", "found"]);
    expect(judged.strokes[1]).toMatchObject({ notesMidi: [64], heardMidi: [65] });
  });
});
