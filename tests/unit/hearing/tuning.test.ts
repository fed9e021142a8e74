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
      expect(tuning.confidence).toBeGreaterThan(0.9);
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

  it("is hardly claimed of sounds without pitch, and less of a record in two tunings than of one", () => {
    const noise = silence(4);
    let state = 1;
    for (let n = 0; n < noise.length; n++) {
      // Park and Miller's generator (Communications of the ACM 31, 1988).
      state = (state * 16807) % 2147483647;
      noise[n] = 0.2 * (state / 1073741824 - 1);
    }
    expect(hearTuning(Signal.of(noise, RATE_HZ)).confidence).toBeLessThan(0.5);
    const notes = [60, 64, 67].map((midi) => ({ startSec: 0, endSec: 4, midi }));
    const both = addTones(addTones(silence(4), notes, -20), notes, 25);
    expect(hearTuning(Signal.of(both, RATE_HZ)).confidence).toBeLessThan(tuningOf(25).confidence - 0.1);
  });

  it("of silence is 0, and nothing is claimed", () => {
    const tuning = hearTuning(Signal.of(silence(1), RATE_HZ));
    expect(tuning).toEqual({ cents: 0, confidence: 0 });
  });
});
