import { describe, expect, it } from "vitest";
import {
  CAUTION_AFTER_SEC,
  type LoudLoop,
  levelDbfs,
  listenOn,
  NOT_LOUD,
} from "@/lib/client/player/loudLoop";

function listen(state: LoudLoop, seconds: number, isLooping: boolean, level: number): LoudLoop {
  let now = state;
  for (let second = 0; second < seconds; second++)
    now = listenOn(now, { elapsedSec: 1, isLooping, levelDbfs: level });
  return now;
}

describe("the caution for long loud loops", () => {
  it("comes only after the whole time of loud looping", () => {
    const almost = listen(NOT_LOUD, CAUTION_AFTER_SEC - 1, true, -12);
    expect(almost.isCautioned).toBe(false);
    expect(listen(almost, 1, true, -12).isCautioned).toBe(true);
  });

  it("does not come for quiet loops or music that is not looped", () => {
    expect(listen(NOT_LOUD, 2 * CAUTION_AFTER_SEC, true, -30).isCautioned).toBe(false);
    expect(listen(NOT_LOUD, 2 * CAUTION_AFTER_SEC, false, -6).isCautioned).toBe(false);
  });

  it("goes after a rest", () => {
    const loud = listen(NOT_LOUD, CAUTION_AFTER_SEC, true, -12);
    expect(listen(loud, 60, true, -60).isCautioned).toBe(true);
    expect(listen(loud, CAUTION_AFTER_SEC / 2, true, -60).isCautioned).toBe(false);
  });

  it("reads levels against full scale: a square wave at full scale is 0 dBFS, at half -6.02", () => {
    expect(levelDbfs(new Float32Array([1, -1, 1, -1]))).toBeCloseTo(0);
    expect(levelDbfs(new Float32Array([0.5, -0.5]))).toBeCloseTo(-6.02, 2);
    expect(levelDbfs(new Float32Array(8))).toBe(Number.NEGATIVE_INFINITY);
  });
});
