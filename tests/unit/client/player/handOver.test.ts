import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { PlaybackMessage } from "@/lib/client/playback/playbackMessages";
import { Player } from "@/lib/client/player/Player";
import { falseAudio } from "./falseAudio";

/** What the record is taken into memory by: it is there when the test says so. */
const memory = vi.hoisted(() => ({ told: [] as PlaybackMessage[], arrive: () => {} }));

vi.mock("@/lib/client/playback/openMemory", () => ({
  openMemory: () =>
    new Promise((resolve) => {
      const port = { postMessage: (message: PlaybackMessage) => void memory.told.push(message) };
      memory.arrive = () => resolve({ node: { port, connect() {} }, channels: 2 });
    }),
}));
vi.mock("@/lib/client/player/outputChain", async () => (await import("./silentOutput")).silentOutput());

const LateAudio = falseAudio({ toldAfterMs: 20 });

describe("a record that goes on from memory", () => {
  let player: Player;
  const commands = () =>
    memory.told.flatMap((message) => (message.kind === "command" ? message.command : []));
  beforeEach(async () => {
    memory.told = [];
    vi.useFakeTimers();
    vi.stubGlobal("Audio", LateAudio);
    vi.stubGlobal("requestAnimationFrame", () => 0);
    vi.stubGlobal("cancelAnimationFrame", () => {});
    player = new Player("/record", 10);
    await player.play();
    // What plays from memory is fetched with the first play.
    await vi.dynamicImportSettled();
    LateAudio.made.currentTime = 4;
  });
  afterEach(() => {
    player.close();
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });

  it("is played there from where the element was, which stops and lets its bytes go", async () => {
    memory.arrive();
    await vi.advanceTimersByTimeAsync(0);
    expect(commands().at(-1)).toEqual({ kind: "play", sec: 4, isCountedIn: false });
    expect(LateAudio.made.paused).toBe(false);
    await vi.advanceTimersByTimeAsync(200);
    expect(LateAudio.made).toMatchObject({ paused: true, src: "" });
    expect(player.now()).toMatchObject({ isPlaying: true, memory: { kind: "ready" } });
  });

  it("sounds once, though the element runs out in a loop before it is stopped", async () => {
    player.setLoop({ startSec: 2, endSec: 10 });
    memory.arrive();
    await vi.advanceTimersByTimeAsync(50);
    LateAudio.made.runOut();
    await vi.advanceTimersByTimeAsync(200);
    expect(LateAudio.made.paused).toBe(true);
    expect(player.now()).toMatchObject({ isPlaying: true, timesThrough: 0 });
  });

  it("goes round its loop though the element has run out and not said so yet", async () => {
    player.setLoop({ startSec: 2, endSec: 10 });
    LateAudio.made.runOut();
    memory.arrive();
    await vi.advanceTimersByTimeAsync(200);
    expect(LateAudio.made.paused).toBe(true);
    expect(commands().at(-1)).toEqual({ kind: "play", sec: 2, isCountedIn: false });
    expect(player.now()).toMatchObject({ isPlaying: true, timesThrough: 1 });
  });

  it("stands still where a pause has not been told yet", async () => {
    player.pause();
    memory.arrive();
    await vi.advanceTimersByTimeAsync(200);
    expect(commands().some(({ kind }) => kind === "play")).toBe(false);
    expect(player.now()).toMatchObject({ isPlaying: false, memory: { kind: "ready" } });
    expect(player.timeSec).toBe(4);
  });

  it("plays a pass for itself, and practises on as before when that is left", async () => {
    memory.arrive();
    await vi.advanceTimersByTimeAsync(200);
    player.setListening({ speed: 0.8 });
    player.setLoop({ startSec: 2, endSec: 6 });
    memory.told = [];
    const stretch = { startSec: 7, endSec: 9 };
    await player.alone.play({ fromSec: 7, speed: 0.6, loop: stretch, countInBars: 1, record: "left" });
    const begun = commands();
    expect(begun.findLast(({ kind }) => kind === "pace")).toMatchObject({ pace: { speed: 0.6 } });
    expect(begun.findLast(({ kind }) => kind === "loop")).toMatchObject({ loop: stretch });
    expect(begun.findLast(({ kind }) => kind === "manner")).toMatchObject({
      manner: { countInBars: 1, gapSec: 0, preRollSec: 0, ladder: { isOn: false } },
    });
    expect(begun.at(-1)).toEqual({ kind: "play", sec: 7, isCountedIn: true });
    // What is kept of how one practises knows nothing of it.
    expect(player.listening().speed).toBe(0.8);
    expect(player.now().loop).toEqual({ startSec: 2, endSec: 6 });
    memory.told = [];
    player.alone.leave();
    const left = commands();
    expect(left.some(({ kind }) => kind === "pause")).toBe(true);
    expect(left.findLast(({ kind }) => kind === "pace")).toMatchObject({ pace: { speed: 0.8 } });
    expect(left.findLast(({ kind }) => kind === "loop")).toMatchObject({ loop: { startSec: 2, endSec: 6 } });
    expect(player.now().pass).toBeNull();
  });
});
