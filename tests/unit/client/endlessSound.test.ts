import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { CAUTION_AFTER_SEC } from "@/lib/client/player/loudLoop";
import { Player } from "@/lib/client/player/Player";

/** How loud it is: one sample value for all. */
const loudness = vi.hoisted(() => ({ now: 0.5 }));

vi.mock("@/lib/client/player/outputChain", async () => {
  const { silentOutput } = await import("./player/silentOutput");
  return silentOutput({ readOutput: (into: Float32Array) => into.fill(loudness.now) });
});

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal(
    "Audio",
    class extends EventTarget {
      currentTime = 0;
      paused = true;
    },
  );
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe("a sound that goes on and on beside the record", () => {
  it.each([
    ["loud", 0.5, true],
    ["quiet", 0.01, false],
  ])("%s: after a quarter of an hour of it the ears are cautioned: %s", (_, level, isCautioned) => {
    loudness.now = level;
    const player = new Player("record", 20);
    player.openOutput();
    player.setEndless(true);
    vi.advanceTimersByTime(1000 * (CAUTION_AFTER_SEC - 30));
    expect(player.now().isCautioned).toBe(false);
    vi.advanceTimersByTime(60_000);
    expect(player.now().isCautioned).toBe(isCautioned);
  });

  it("is not counted once it has stopped", () => {
    loudness.now = 0.5;
    const player = new Player("record", 20);
    player.openOutput();
    player.setEndless(true);
    vi.advanceTimersByTime(60_000);
    player.setEndless(false);
    vi.advanceTimersByTime(2000 * CAUTION_AFTER_SEC);
    expect(player.now().isCautioned).toBe(false);
  });
});
