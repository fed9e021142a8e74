import { describe, expect, it, vi } from "vitest";
import { RATE_HZ, silence } from "./band";
import { BOOM_CHICK, beatTimes, playGroove } from "./grooves";
import { beatFMeasure, hearGroove } from "./hearGroove";

vi.setConfig({ testTimeout: 120_000 });

const FREE_SEC = [0.4, 1.5, 2.1, 3.7, 5.4, 6.0, 7.6];

describe("stretches without a steady beat", () => {
  it("are told of an introduction out of time, and beats begin with the band", () => {
    const times = beatTimes(40, () => 108, 9.2);
    const { chain } = hearGroove(playGroove(BOOM_CHICK, times, { freeSec: FREE_SEC }));
    expect(chain.freeStretches).toHaveLength(1);
    const [intro] = chain.freeStretches;
    expect(intro!.startSec).toBe(0);
    expect(Math.abs(intro!.endSec - times[0]!)).toBeLessThan(0.7);
    expect(beatFMeasure(times.slice(0, -1), chain.timesSec)).toBeGreaterThan(0.97);
  });

  it("are told of a silence in the middle, through which beats go on", () => {
    const times = beatTimes(64, () => 108);
    const silent = { from: 28, to: 40 };
    const { chain } = hearGroove(playGroove(BOOM_CHICK, times, { silent }));
    expect(chain.freeStretches).toHaveLength(1);
    const [pause] = chain.freeStretches;
    expect(Math.abs(pause!.startSec - times[silent.from]!)).toBeLessThan(0.7);
    expect(Math.abs(pause!.endSec - times[silent.to]!)).toBeLessThan(0.7);
    expect(beatFMeasure(times.slice(0, -1), chain.timesSec)).toBeGreaterThan(0.97);
  });

  it("are none where a band plays in time to the end", () => {
    const { chain } = hearGroove(
      playGroove(
        BOOM_CHICK,
        beatTimes(40, () => 108),
      ),
    );
    expect(chain.freeStretches).toEqual([]);
  });

  it("are the whole record where nothing sounds, with an even grid that nobody is sure of", () => {
    const { chain } = hearGroove(silence(12));
    expect(chain.freeStretches).toEqual([{ startSec: 0, endSec: silence(12).length / RATE_HZ }]);
    expect(chain.timesSec.length).toBeGreaterThan(10);
    expect(chain.confidence).toBeLessThan(0.5);
  });
});
