import { beforeEach, describe, expect, it, vi } from "vitest";
import type { PlaybackMessage, PlaybackReport } from "@/lib/client/playback/playbackMessages";
import { MemoryPlayback } from "@/lib/client/player/MemoryPlayback";

const LATENCY_SEC = 0.03;
let told: PlaybackMessage[];
let clock: { currentTime: number; outputLatency: number };
let port: { postMessage(message: PlaybackMessage): void; onmessage: ((event: MessageEvent) => void) | null };
let playback: MemoryPlayback;
const events = {
  began: vi.fn(),
  stopped: vi.fn(),
  ended: vi.fn(),
  moved: vi.fn(),
  passed: vi.fn(),
  turned: vi.fn(),
  failed: vi.fn(),
};

beforeEach(() => {
  vi.clearAllMocks();
  told = [];
  clock = { currentTime: 100, outputLatency: LATENCY_SEC };
  port = { postMessage: (message) => void told.push(message), onmessage: null };
  playback = new MemoryPlayback(port as unknown as MessagePort, clock, 60, events);
});

const lastNumber = () => {
  const last = told.at(-1);
  return last?.kind === "command" ? last.number : 0;
};
function report(fields: Partial<PlaybackReport>): void {
  const whole: PlaybackReport = {
    number: lastNumber(),
    ...{ isPlaying: true, isSounding: true, sec: 0, atSec: clock.currentTime, speed: 1 },
    ...{ timesThrough: 0, isEnded: false },
    ...fields,
  };
  port.onmessage?.({ data: { kind: "report", report: whole } } as MessageEvent);
}

describe("a record that the audio thread plays from memory", () => {
  it("is where it was sent until it sounds there", async () => {
    playback.seek(12);
    await playback.play(false);
    expect([playback.timeSec, playback.isRunning, playback.isPaused]).toEqual([12, false, false]);
    clock.currentTime += 0.5;
    expect(playback.timeSec).toBe(12);
  });

  it("is heard as much later as the sound takes to the ears, and no earlier than it began", async () => {
    await playback.play(false);
    report({ sec: 0 });
    expect(playback.timeSec).toBe(0);
    clock.currentTime += LATENCY_SEC / 2;
    expect(playback.timeSec).toBe(0);
    clock.currentTime += 0.5;
    expect(playback.timeSec).toBeCloseTo(0.5 - LATENCY_SEC / 2, 9);
    // What is sent out, which the steel follows, is known without it.
    expect(playback.sounding()).toEqual({ sec: 0, atSec: 100, speed: 1 });
  });

  it("goes on at its speed and round its loop between two words of it", async () => {
    playback.setLoop({ startSec: 2, endSec: 4 }, 0);
    playback.seek(3.9);
    await playback.play(false);
    report({ sec: 3.9, speed: 0.5 });
    clock.currentTime += LATENCY_SEC + 0.1;
    expect(playback.timeSec).toBeCloseTo(3.95, 9);
    clock.currentTime += 0.2;
    expect(playback.timeSec).toBeCloseTo(2.05, 9);
  });

  it("takes no word that was said before it was sent elsewhere", async () => {
    await playback.play(false);
    report({ sec: 1 });
    const before = lastNumber();
    playback.seek(30);
    report({ number: before, sec: 1.02 });
    expect([playback.timeSec, playback.isRunning]).toEqual([30, false]);
    report({ sec: 30 });
    expect(playback.isRunning).toBe(true);
  });

  it("stands where it was last heard when it is paused", async () => {
    await playback.play(false);
    report({ sec: 5 });
    clock.currentTime += 1;
    playback.pause();
    expect(playback.timeSec).toBeCloseTo(6 - LATENCY_SEC, 9);
    expect(told.at(-1)).toMatchObject({ command: { kind: "pause", sec: playback.timeSec } });
    expect(events.stopped).toHaveBeenCalledTimes(1);
  });

  it("tells of turns with their speed, and of the end once", async () => {
    await playback.play(false);
    report({ sec: 1, timesThrough: 1 });
    report({ sec: 1, timesThrough: 2, speed: 0.6 });
    expect(events.turned.mock.calls).toEqual([[2, 0.6]]);
    report({ isPlaying: false, isSounding: false, isEnded: true, sec: 60, timesThrough: 2 });
    report({ isPlaying: false, isSounding: false, isEnded: true, sec: 60, timesThrough: 2 });
    expect(events.ended).toHaveBeenCalledTimes(1);
    expect([playback.isPaused, playback.timeSec]).toEqual([true, 60]);
    await playback.play(false);
    expect(told.at(-1)).toMatchObject({ command: { kind: "play", sec: 0 } });
  });
});
