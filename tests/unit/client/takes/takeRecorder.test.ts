import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Player } from "@/lib/client/player/Player";
import { AT_FIRST, type Pass, type PlayerState } from "@/lib/client/player/PlayerState";
import { CapturedSound } from "@/lib/client/takes/CapturedSound";
import { TakeInput } from "@/lib/client/takes/TakeInput";
import { type Recorded, TakeRecorder } from "@/lib/client/takes/TakeRecorder";
import { Watched } from "@/lib/client/watched/Watched";

const RATE_HZ = 8_000;
const CHUNK = 400;

/** The device, as a test opens it: its sound comes when the test says so. */
const device = vi.hoisted(() => ({
  refusal: null as unknown,
  delaySec: 0,
  events: { came() {}, gone() {} },
  sound: null as unknown,
  closed: 0,
}));
vi.mock("@/lib/client/takes/TakeCapture", () => ({
  TakeCapture: {
    open: async (_id: string, _silent: unknown, _signal: AbortSignal, events: typeof device.events) => {
      if (device.refusal) throw device.refusal;
      device.events = events;
      device.sound = new CapturedSound();
      return {
        sound: device.sound,
        toldDelaySec: device.delaySec,
        device: { id: "", name: "Line" },
        close: () => {
          device.closed++;
        },
      };
    },
  },
}));

/** A player whose record goes on with the test's own clock, once a bar of a second was counted in. */
class StubPlayer extends Watched<PlayerState> {
  readonly durationSec = 30;
  readonly isExact = true;
  context = { sampleRate: RATE_HZ, currentTime: 10 };
  timeSec = 0;
  beganAtSec: number | null = null;
  passes: Pass[] = [];
  private readonly frames = new Set<(timeSec: number) => void>();
  constructor() {
    super({ ...AT_FIRST, memory: { kind: "ready", channels: 2 } });
  }
  openOutput() {
    return { context: this.context, beside: {}, resume: async () => {} };
  }
  readonly onTime = (tell: (timeSec: number) => void) => {
    this.frames.add(tell);
    return () => this.frames.delete(tell);
  };
  readonly alone = {
    play: async (pass: Pass) => {
      this.passes.push(pass);
      this.beganAtSec = this.context.currentTime + pass.countInBars;
      this.timeSec = pass.fromSec;
      this.tell({ pass, isPlaying: true });
    },
    leave: () => {
      if (this.now().pass) this.tell({ pass: null, isPlaying: false });
    },
  };
  set(state: Partial<PlayerState>) {
    this.tell(state);
  }
  get isRunning() {
    return this.now().isPlaying && this.beganAtSec !== null && this.context.currentTime >= this.beganAtSec;
  }
  sounding() {
    return { sec: this.timeSec, atSec: this.context.currentTime, speed: this.now().speed };
  }
  /** Lets time go by, with sound coming in that counts the context's seconds. */
  go(sec: number) {
    const until = this.context.currentTime + sec;
    while (this.context.currentTime < until - 1e-9) {
      const atFrame = Math.round(this.context.currentTime * RATE_HZ);
      this.context.currentTime += CHUNK / RATE_HZ;
      if (this.isRunning) {
        const pass = this.passes.at(-1)!;
        this.timeSec = pass.fromSec + (this.context.currentTime - this.beganAtSec!) * this.now().speed;
      }
      const channel = Float32Array.from({ length: CHUNK }, (_, i) => ((atFrame + i) % 1_000) / 2_000 + 0.1);
      (device.sound as CapturedSound | null)?.add({ atFrame, channels: [channel] });
      device.events.came();
      for (const tell of this.frames) tell(this.timeSec);
    }
  }
}

describe("recording a take", () => {
  let player: StubPlayer;
  let recorder: TakeRecorder;
  let kept: Recorded[];
  let said: string[];
  let input: TakeInput;
  const wish = { startSec: 4, endSec: 8, partId: null };
  const grid = { beatsSec: [0, 1], inBar: [1, 2], beatsPerBar: 4, bars: [], tempoBpm: 60 };
  beforeEach(() => {
    vi.useFakeTimers();
    vi.stubGlobal("isSecureContext", true);
    Object.assign(device, { refusal: null, delaySec: 0.05, closed: 0, sound: null });
    [kept, said] = [[], []];
    player = new StubPlayer();
    const held = new Map<string, string>();
    input = new TakeInput({
      getItem: (key) => held.get(key) ?? null,
      setItem: (key, value) => held.set(key, value),
    });
    recorder = new TakeRecorder(
      player as unknown as Player,
      input,
      { songId: "song", userId: "ann" },
      {
        keep: (recorded) => kept.push(recorded),
        say: (words) => said.push(words),
      },
    );
  });
  afterEach(() => {
    recorder.close();
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });
  const about = () => kept[0]!.take.about;

  it("counts in, records to the end with a tail, and gives device and record back", async () => {
    await recorder.start(wish, grid);
    expect(player.passes).toEqual([
      { fromSec: 4, speed: null, loop: null, countInBars: 1, record: "asListened" },
    ]);
    expect(recorder.now().step).toBe("countingIn");
    player.go(1.2);
    expect(recorder.now().step).toBe("recording");
    player.go(6);
    expect(kept).toHaveLength(1);
    expect(about()).toMatchObject({ startSec: 4, endSec: 8, speed: 1, delaySec: 0.05, ownerId: "ann" });
    expect(about().leadSec).toBeCloseTo(0.5, 2);
    expect(kept[0]!.take.durationSec).toBeCloseTo(0.5 + 4 + 0.75, 2);
    expect([recorder.now().step, device.closed, player.now().pass]).toEqual(["off", 1, null]);
  });

  it("leads in with the record where no beats are known, and takes the measured delay where there is one", async () => {
    input.setMeasured(0.1);
    await recorder.start(wish, null);
    expect(player.passes[0]).toMatchObject({ fromSec: 2, countInBars: 0 });
    player.go(1);
    expect(recorder.now().step).toBe("countingIn");
    player.go(7);
    expect(about()).toMatchObject({ startSec: 4, endSec: 8, delaySec: 0.1 });
  });

  it("keeps what was played when it is stopped, and nothing when it is dropped", async () => {
    await recorder.start(wish, grid);
    player.go(3);
    recorder.stop();
    player.go(1.5);
    expect(about().endSec).toBeCloseTo(6, 1);
    await recorder.start(wish, grid);
    player.go(3);
    expect(recorder.cancel()).toBe(true);
    player.go(2);
    expect(kept).toHaveLength(1);
    expect(said.at(-1)).toBe("The take was dropped: nothing of it is kept.");
    expect(recorder.cancel()).toBe(false);
  });

  it("ends where the speed changes, the record is sent elsewhere or the device goes, and says what was kept", async () => {
    const cases: [() => void, string][] = [
      [() => player.set({ speed: 0.8 }), "The speed was changed"],
      [
        () => {
          player.beganAtSec! -= 2;
        },
        "The record was sent elsewhere",
      ],
      [() => device.events.gone(), "The microphone or line went away"],
    ];
    for (const [act, words] of cases) {
      kept = [];
      player.set({ speed: 1 });
      await recorder.start(wish, grid);
      player.go(3);
      act();
      player.go(2);
      await vi.advanceTimersByTimeAsync(2_000);
      expect(kept).toHaveLength(1);
      expect(kept[0]!.caution).toContain(words);
      expect(about().endSec).toBeLessThan(6.3);
    }
  });

  it("keeps what was played where the page is left in the middle", async () => {
    await recorder.start(wish, grid);
    player.go(2.5);
    recorder.close();
    expect(kept).toHaveLength(1);
    expect(about().endSec).toBeCloseTo(5.5, 1);
    expect(device.closed).toBe(1);
  });

  it("keeps nothing of what ended before it began, and says so", async () => {
    await recorder.start(wish, grid);
    player.go(0.5);
    recorder.stop();
    expect(said.at(-1)).toContain("nothing");
    await recorder.start(wish, grid);
    player.go(1.2);
    recorder.stop();
    player.go(2);
    await vi.advanceTimersByTimeAsync(2_000);
    expect(said.at(-1)).toContain("Hardly anything was played");
    expect(kept).toEqual([]);
  });

  it.each([
    [new DOMException("", "NotAllowedError"), "keeps the microphone from this page"],
    [new DOMException("", "NotFoundError"), "There is no microphone or line"],
    [new DOMException("", "NotReadableError"), "held by another program"],
    [new DOMException("", "OverconstrainedError"), "input that was chosen is not there"],
    [new Error("odd"), "could not be opened"],
  ])("says what keeps it from the device, and that nothing was recorded", async (refusal, words) => {
    device.refusal = refusal;
    await recorder.start(wish, grid);
    expect(said.at(-1)).toContain(words);
    expect(said.at(-1)).toContain("Nothing was recorded");
    expect([recorder.isOn, player.passes.length]).toEqual([false, 0]);
  });

  it("takes no stretch of more than ten minutes", async () => {
    await recorder.start({ startSec: 0, endSec: 700, partId: null }, grid);
    expect(said.at(-1)).toContain("10 minutes at most");
    expect(recorder.isOn).toBe(false);
  });
});
