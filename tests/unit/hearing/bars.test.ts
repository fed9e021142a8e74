import { describe, expect, it } from "vitest";
import { hearBars } from "@/lib/hearing/bars";
import type { BeatEvidence } from "@/lib/hearing/novelty";

const RATE = 86;

/** Beats half a second apart, of which a learned ear takes those in `downbeats` for downbeats. */
function heardWith(count: number, downbeats: ReadonlySet<number>) {
  const beats = Array.from({ length: count }, (_, i) => 0.5 + 0.5 * i);
  const none = new Float64Array(Math.ceil(RATE * (1 + 0.5 * count)));
  const downbeat = Float64Array.from(none, (_, frame) => {
    const beat = Math.round((frame / RATE - 0.5) / 0.5);
    return downbeats.has(beat) ? 0.8 : 0.05;
  });
  const beat = none.map(() => 0.8);
  const evidence: BeatEvidence = {
    frameRateHz: RATE,
    onset: none,
    low: none,
    harmony: none,
    learned: { beat, downbeat },
  };
  return hearBars(
    beats,
    evidence,
    beats.map(() => 0),
  );
}

function every(size: number, count: number, from = 0): Set<number> {
  return new Set(
    Array.from({ length: count }, (_, i) => i).filter((i) => i >= from && (i - from) % size === 0),
  );
}

describe("bars from learned downbeats", () => {
  for (const size of [2, 3, 4, 6]) {
    it(`have ${size} beats where one in ${size} is a downbeat`, () => {
      const { inBar, beatsPerBar, confidence } = heardWith(48, every(size, 48, 1));
      expect(beatsPerBar).toBe(size);
      expect(inBar[1]).toBe(1);
      expect(inBar[0]).toBe(size);
      expect(confidence).toBeGreaterThan(0.6);
    });
  }

  it("may be cut short once, and are then less sure", () => {
    const cut = new Set([...every(4, 25), ...every(4, 48, 26)]);
    const { inBar, beatsPerBar, confidence, standing } = heardWith(48, cut);
    expect(beatsPerBar).toBe(4);
    expect([inBar[24], inBar[25], inBar[26]]).toEqual([1, 2, 1]);
    expect(standing.slips).toBeCloseTo(1 / 48, 10);
    expect(confidence).toBeLessThan(heardWith(48, every(4, 48)).confidence);
  });

  it("are not sure where no beat stands out", () => {
    expect(heardWith(48, new Set()).confidence).toBeLessThan(heardWith(48, every(4, 48)).confidence - 0.02);
  });
});
