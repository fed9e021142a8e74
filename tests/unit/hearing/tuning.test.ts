import { describe, expect, it } from "vitest";
import { Signal } from "@/lib/dsp/Signal";
import { hearTuning } from "@/lib/hearing/tuning";
import { addTones, RATE_HZ, silence } from "./band";

/** Four chords of harmonic tones, the whole record off by `cents`. */
function tuningOf(cents: number): ReturnType<typeof hearTuning> {
  const notes = [60, 65, 67, 60].flatMap((root, i) =>
    [root, root + 4, root + 7].map((midi) => ({ startSec: i, endSec: i + 1, midi })),
  );
  return hearTuning(Signal.of(addTones(silence(4), notes, cents), RATE_HZ));
}

describe("the tuning of a record", () => {
  // ISO 16: A4 = 440 Hz stands at 0 cents.
  for (const cents of [0, 23, -37, 48]) {
    it(`is heard within 2 cents when everything stands ${cents} cents off`, () => {
      const tuning = tuningOf(cents);
      expect(Math.abs(tuning.cents - cents)).toBeLessThan(2);
      expect(tuning.confidence).toBeGreaterThan(0.5);
    });
  }

  it("is the same half way between two keys, whichever side it is given on", () => {
    expect(50 - Math.abs(tuningOf(50).cents)).toBeLessThan(2);
  });

  it("is not pulled away by one voice that glides all the time", () => {
    const samples = addTones(
      silence(4),
      [60, 64, 67].map((midi) => ({ startSec: 0, endSec: 4, midi })),
      12,
    );
    let phase = 0;
    for (let n = 0; n < samples.length; n++) {
      phase += (2 * Math.PI * 440 * 2 ** (((n / RATE_HZ) % 2) / 2 / 6)) / RATE_HZ;
      samples[n]! += 0.05 * Math.sin(phase);
    }
    expect(Math.abs(hearTuning(Signal.of(samples, RATE_HZ)).cents - 12)).toBeLessThan(3);
  });

  it("of silence is 0, and nothing is claimed", () => {
    const tuning = hearTuning(Signal.of(silence(1), RATE_HZ));
    expect(tuning).toEqual({ cents: 0, confidence: 0 });
  });
});
