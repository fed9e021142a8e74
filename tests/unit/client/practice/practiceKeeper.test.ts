import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { PracticeKeeper, type PracticePlayer } from "@/lib/client/practice/PracticeKeeper";
import { LISTENING_AT_FIRST, type ListeningSettings } from "@/lib/document/records/ListeningSettings";

const passage = { id: "one", startSec: 10, endSec: 12 };

class PlainPlayer implements PracticePlayer {
  state = {
    isPlaying: false,
    speed: 1,
    loop: null as ReturnType<PracticePlayer["now"]>["loop"],
    timesThrough: 0,
  };
  timeSec = 10;
  settings: ListeningSettings = LISTENING_AT_FIRST;
  private readonly watchers = new Set<() => void>();
  private readonly listeners = new Set<(timeSec: number) => void>();
  now = () => this.state;
  watch = (watcher: () => void) => {
    this.watchers.add(watcher);
    return () => this.watchers.delete(watcher);
  };
  onTime = (listener: (timeSec: number) => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  listening = () => this.settings;

  set(fields: Partial<PlainPlayer["state"]>): void {
    this.state = { ...this.state, ...fields };
    for (const watcher of this.watchers) watcher();
  }
  listen(settings: Partial<ListeningSettings>): void {
    this.settings = { ...this.settings, ...settings };
    this.set({ speed: this.settings.speed });
  }
  /** Once through the loop, two seconds. */
  through(): void {
    for (let frame = 0; frame < 20; frame += 1) {
      vi.advanceTimersByTime(100);
      this.timeSec += 0.1;
      for (const listener of this.listeners) listener(this.timeSec);
    }
    this.set({ timesThrough: this.state.timesThrough + 1 });
    this.timeSec = 10;
    for (const listener of this.listeners) listener(this.timeSec);
  }
}

function keeping(mayWrite = true) {
  const player = new PlainPlayer();
  const count = vi.fn();
  const listen = vi.fn();
  const keeper = new PracticeKeeper(player, { mayWrite, count, listen }, () => performance.now());
  keeper.take(passage);
  return { player, keeper, count, listen };
}

describe("what is kept of the passage at hand", () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it("writes the first time through at once, then no more often than every ten seconds, and at a pause", () => {
    const { player, keeper, count } = keeping();
    player.set({ loop: { startSec: 10, endSec: 12 }, isPlaying: true });
    player.through();
    expect(count.mock.calls).toEqual([["one", { times: 1, fullSpeedTimes: 1 }]]);
    for (let time = 0; time < 4; time += 1) player.through();
    expect(count).toHaveBeenCalledTimes(1);
    expect(keeper.now()).toEqual({ times: 4, fullSpeedTimes: 4 });
    player.through();
    expect(count.mock.calls.at(-1)).toEqual(["one", { times: 4, fullSpeedTimes: 4 }]);
    player.set({ isPlaying: false });
    expect(count.mock.calls.at(-1)).toEqual(["one", { times: 1, fullSpeedTimes: 1 }]);
    expect(count.mock.calls.reduce((sum, [, more]) => sum + more.times, 0)).toBe(6);
    expect(keeper.now()).toEqual({ times: 0, fullSpeedTimes: 0 });
  });

  it("counts nothing of another loop", () => {
    const { player, keeper, count } = keeping();
    player.set({ loop: { startSec: 10, endSec: 11.9 }, isPlaying: true });
    player.through();
    player.set({ isPlaying: false });
    expect(count).not.toHaveBeenCalled();
    expect(keeper.now().times).toBe(0);
  });

  it("gives each passage its own when another is taken in hand", () => {
    const { player, keeper, count } = keeping();
    player.set({ loop: { startSec: 10, endSec: 12 }, isPlaying: true });
    player.through();
    player.through();
    keeper.take({ ...passage, id: "two" });
    expect(count.mock.calls.map(([id, more]) => [id, more.times])).toEqual([
      ["one", 1],
      ["one", 1],
    ]);
    player.through();
    expect(count.mock.calls.at(-1)).toEqual(["two", { times: 1, fullSpeedTimes: 1 }]);
  });

  it("keeps how one listens once it stays so, and only where it changed", () => {
    const { player, keeper, listen } = keeping();
    player.set({ isPlaying: true });
    vi.advanceTimersByTime(5_000);
    expect(listen).not.toHaveBeenCalled();
    for (const speed of [0.9, 0.8, 0.7]) {
      player.listen({ speed });
      vi.advanceTimersByTime(500);
    }
    expect(listen).not.toHaveBeenCalled();
    vi.advanceTimersByTime(1_500);
    expect(listen.mock.calls).toEqual([
      ["one", { isLooped: false, settings: { ...LISTENING_AT_FIRST, speed: 0.7 } }],
    ]);
    player.set({ loop: { startSec: 10, endSec: 12 } });
    keeper.close();
    expect(listen.mock.calls.at(-1)![1]).toMatchObject({ isLooped: true, settings: { speed: 0.7 } });
  });

  it("keeps counting on the page where the reader may not write", () => {
    const { player, keeper, count, listen } = keeping(false);
    player.set({ loop: { startSec: 10, endSec: 12 }, isPlaying: true });
    player.through();
    player.through();
    player.set({ isPlaying: false });
    vi.advanceTimersByTime(20_000);
    expect([count.mock.calls, listen.mock.calls]).toEqual([[], []]);
    expect(keeper.now().times).toBe(2);
  });
});
