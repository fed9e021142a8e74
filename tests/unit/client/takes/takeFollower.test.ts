import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { TakeFollower } from "@/lib/client/takes/TakeFollower";

/** What was begun: at which time of the context, from which second of the take on, and when it was to end. */
interface Begun {
  atSec: number;
  offsetSec: number;
  stopSec: number | null;
}

const param = () => ({
  setTargetAtTime() {},
  setValueAtTime() {},
  linearRampToValueAtTime() {},
  cancelScheduledValues() {},
});

describe("a take that is heard beside the record", () => {
  const begun: Begun[] = [];
  const context = {
    currentTime: 100,
    createBuffer: (_channels: number, length: number, rateHz: number) => ({
      duration: length / rateHz,
      copyToChannel() {},
    }),
  };
  class Node {
    gain = param();
    pan = param();
    connect<T>(to: T): T {
      return to;
    }
    disconnect() {}
  }
  class Source extends Node {
    onended = null;
    private one: Begun | null = null;
    start(atSec: number, offsetSec: number) {
      this.one = { atSec, offsetSec, stopSec: null };
      begun.push(this.one);
    }
    stop(atSec: number) {
      if (this.one) this.one.stopSec = atSec;
    }
  }
  // Ten seconds of the take, a half of which lead in, played at 60 % from second 20 of the record on.
  const take = { startSec: 20, leadSec: 0.5, speed: 0.6, durationSec: 10 };
  const sound = { sampleRateHz: 1_000, channels: [new Float32Array(10_000)] };
  let follower: TakeFollower;
  beforeEach(() => {
    begun.length = 0;
    context.currentTime = 100;
    vi.stubGlobal("GainNode", Node);
    vi.stubGlobal("StereoPannerNode", Node);
    vi.stubGlobal("AudioBufferSourceNode", Source);
    follower = new TakeFollower(take, sound, { context } as unknown as AudioNode);
  });
  afterEach(() => vi.unstubAllGlobals());
  /** Which second of the take is given out at a time of the context. */
  const heardAt = (atSec: number) => {
    const one = begun.at(-1)!;
    return one.offsetSec + (atSec - one.atSec);
  };

  it("sounds with the second that it was played to, and is begun once", () => {
    follower.follow({ sec: 23, atSec: 100.01, speed: 0.6 });
    // Second 23 of the record lies 5 s into the take, after its lead.
    expect(heardAt(100.01)).toBeCloseTo(0.5 + 5, 9);
    for (let at = 100.1; at < 103; at += 0.1) {
      context.currentTime = at;
      follower.follow({ sec: 23 + (at - 100.01) * 0.6, atSec: at, speed: 0.6 });
    }
    expect(begun).toHaveLength(1);
  });

  it("waits for its beginning where the record is before it", () => {
    follower.follow({ sec: 19.4, atSec: 100, speed: 0.6 });
    expect(begun[0]).toMatchObject({ offsetSec: 0 });
    // A second until the record's start, half of it the lead.
    expect(begun[0]!.atSec).toBeCloseTo(100.5, 9);
  });

  it("follows the record round a loop and to another place within 4 ms, and halts with it", () => {
    follower.follow({ sec: 23, atSec: 100, speed: 0.6 });
    follower.follow({ sec: 23.0018, atSec: 100, speed: 0.6 });
    expect(begun).toHaveLength(1);
    follower.follow({ sec: 20.3, atSec: 100, speed: 0.6 });
    expect(begun).toHaveLength(2);
    expect(begun[0]!.stopSec).not.toBeNull();
    expect(heardAt(100)).toBeCloseTo(0.5 + 0.5, 9);
    follower.follow(null);
    expect(begun[1]!.stopSec).not.toBeNull();
  });

  it("is silent at another speed than its own, and past its end", () => {
    follower.follow({ sec: 23, atSec: 100, speed: 1 });
    follower.follow({ sec: 27, atSec: 100, speed: 0.6 });
    expect(begun).toEqual([]);
  });
});
