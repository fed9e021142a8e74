import { describe, expect, it, vi } from "vitest";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { BOOM_CHICK, beatTimes, type Groove, JIG, playGroove, SHUFFLE, SLOW_SIX, WALTZ } from "./grooves";
import { beatFMeasure, hearGroove } from "./hearGroove";

vi.setConfig({ testTimeout: 120_000 });
const ear = await readLearnedEar();

function heard(groove: Groove, bpm: number, beats: number, by: typeof ear | null) {
  const times = beatTimes(beats, () => bpm);
  const found = hearGroove(playGroove(groove, times), by);
  return { ...found, score: beatFMeasure(times.slice(0, -1), found.chain.timesSec) };
}

describe("how a groove is counted", () => {
  for (const bpm of [72, 90, 110, 132]) {
    it(`swung off-beats neither double ${bpm} beats a minute nor go unnoticed`, () => {
      const { chain, score } = heard(SHUFFLE, bpm, 40, null);
      expect(score).toBeGreaterThan(0.97);
      expect(chain.division).toBe(3);
    });
    it(`even off-beats at ${bpm} beats a minute divide them in two`, () => {
      const { chain, score } = heard(BOOM_CHICK, bpm, 40, null);
      expect(score).toBeGreaterThan(0.97);
      expect(chain.division).toBe(2);
    });
  }

  it("a fast swing is not halved by both ears", () => {
    const { chain, score } = heard(SHUFFLE, 152, 48, ear);
    expect(score).toBeGreaterThan(0.97);
    expect(chain.division).toBe(3);
  });

  for (const bpm of [70, 90, 112]) {
    it(`six fast eighths are two beats of three, ${bpm} a minute`, () => {
      const { chain, bars, score } = heard(JIG, bpm, 40, ear);
      expect(score).toBeGreaterThan(0.97);
      expect(chain.division).toBe(3);
      expect(bars.beatsPerBar).toBe(2);
    });
  }

  it("six slow eighths are six beats of two", () => {
    const { chain, bars, score } = heard(SLOW_SIX, 100, 60, ear);
    expect(score).toBeGreaterThan(0.97);
    expect(chain.division).toBe(2);
    expect(bars.beatsPerBar).toBe(6);
  });

  it("three beats to the bar are three", () => {
    const { bars, score } = heard(WALTZ, 112, 42, null);
    expect(score).toBeGreaterThan(0.97);
    expect(bars.beatsPerBar).toBe(3);
  });

  it("a pick-up ends the bar before the first", () => {
    const times = beatTimes(42, () => 108);
    const { downbeatsSec, bars } = hearGroove(playGroove(BOOM_CHICK, times, { pickUpBeats: 2 }));
    const trueSec = times.slice(2, -1).filter((_, i) => i % 4 === 0);
    expect(bars.beatsPerBar).toBe(4);
    expect(beatFMeasure(trueSec, downbeatsSec)).toBeGreaterThan(0.95);
    expect(Math.abs(downbeatsSec.find((time) => time > 0.3)! - times[2]!)).toBeLessThan(0.07);
  });

  it("a count-in counts as beats, a bar of them", () => {
    const times = beatTimes(44, () => 108);
    const { chain, downbeatsSec } = hearGroove(playGroove(BOOM_CHICK, times, { countInBeats: 4 }));
    expect(beatFMeasure(times.slice(0, -1), chain.timesSec)).toBeGreaterThan(0.97);
    const trueSec = times.slice(0, -1).filter((_, i) => i % 4 === 0);
    expect(beatFMeasure(trueSec, downbeatsSec)).toBeGreaterThan(0.95);
  });
});
