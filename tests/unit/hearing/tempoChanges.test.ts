import { describe, expect, it, vi } from "vitest";
import { BOOM_CHICK, beatTimes, playGroove } from "./grooves";
import { beatFMeasure, hearGroove } from "./hearGroove";

// Hearing takes long on a machine that does much else; nothing here measures time.
vi.setConfig({ testTimeout: 120_000 });

/** Beats a minute after each beat, by its number. */
const TEMPI: { name: string; beats: number; bpm: (beat: number) => number; atLeast: number }[] = [
  { name: "rises evenly from 90 to 125", beats: 64, bpm: (i) => 90 + (35 * i) / 63, atLeast: 0.97 },
  { name: "falls evenly from 120 to 85", beats: 56, bpm: (i) => 120 - (35 * i) / 55, atLeast: 0.97 },
  // Where the tempo jumps a beat or two may be missed.
  { name: "jumps from 126 to 92", beats: 64, bpm: (i) => (i < 32 ? 126 : 92), atLeast: 0.93 },
  { name: "jumps from 80 to 130", beats: 72, bpm: (i) => (i < 32 ? 80 : 130), atLeast: 0.93 },
  {
    name: "slows down over the last two bars",
    beats: 48,
    bpm: (i) => 104 - 5 * Math.max(0, i - 39),
    atLeast: 0.97,
  },
];

describe("beats whose tempo changes", () => {
  for (const { name, beats, bpm, atLeast } of TEMPI) {
    it(`are followed where it ${name}`, () => {
      const times = beatTimes(beats, bpm);
      const { chain } = hearGroove(playGroove(BOOM_CHICK, times));
      expect(beatFMeasure(times.slice(0, -1), chain.timesSec)).toBeGreaterThan(atLeast);
    });
  }

  it("are found again after a held beat", () => {
    const times = beatTimes(56, (i) => (i === 27 ? 30 : 104));
    const { chain } = hearGroove(playGroove(BOOM_CHICK, times));
    const after = times.slice(28, -1);
    const before = times.slice(0, 28);
    expect(beatFMeasure(before, chain.timesSec)).toBeGreaterThan(0.95);
    expect(beatFMeasure(after, chain.timesSec)).toBeGreaterThan(0.95);
  });
});
