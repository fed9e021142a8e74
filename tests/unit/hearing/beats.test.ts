import { describe, expect, it, vi } from "vitest";
import type { Hearing } from "@/lib/hearing/Hearing";
import { hear } from "@/lib/hearing/hear";
import { addClicks, addDrum, addTones, chordNotes, RATE_HZ, silence, type TestChord } from "./band";

const C: Omit<TestChord, "beats"> = { bass: 36, upper: [60, 64, 67] };
const F: Omit<TestChord, "beats"> = { bass: 41, upper: [60, 65, 69] };
const G: Omit<TestChord, "beats"> = { bass: 43, upper: [59, 62, 67] };

// Hearing whole records takes long on a machine that does much else; nothing here measures time.
vi.setConfig({ testTimeout: 60_000 });

interface Groove {
  bpm: number;
  beatsPerBar: number;
  bars: number;
  leadInSec: number;
}

/** A band: a click on every beat, a bass drum and a new chord on every downbeat. */
function groove({ bpm, beatsPerBar, bars, leadInSec }: Groove): { hearing: Hearing; beatsSec: number[] } {
  const beatSec = 60 / bpm;
  const beatsSec = Array.from({ length: bars * beatsPerBar }, (_, i) => leadInSec + i * beatSec);
  const chords = Array.from({ length: bars }, (_, bar) => ({ ...[C, F, G][bar % 3]!, beats: beatsPerBar }));
  const samples = silence(leadInSec + bars * beatsPerBar * beatSec);
  addTones(samples, chordNotes(chords, beatSec, leadInSec));
  addClicks(samples, beatsSec, () => 0.3);
  addDrum(
    samples,
    beatsSec.filter((_, i) => i % beatsPerBar === 0),
    0.5,
  );
  return { hearing: hear(samples, RATE_HZ), beatsSec };
}

/** Share of the true times that have a heard one within 30 ms. */
function shareFound(trueSec: number[], heardSec: number[]): number {
  const found = trueSec.filter((time) => heardSec.some((heard) => Math.abs(heard - time) <= 0.03));
  return found.length / trueSec.length;
}

const GROOVES: Groove[] = [
  { bpm: 100, beatsPerBar: 4, bars: 8, leadInSec: 0.4 },
  { bpm: 120, beatsPerBar: 4, bars: 9, leadInSec: 0.15 },
  { bpm: 110, beatsPerBar: 3, bars: 12, leadInSec: 0.3 },
];

describe("beats and bars of a click track with a band", () => {
  for (const given of GROOVES) {
    it(`${given.beatsPerBar} beats to the bar at ${given.bpm} a minute`, () => {
      const { hearing, beatsSec } = groove(given);
      const { grid } = hearing;
      const heard = grid.beats.map((beat) => beat.timeSec);
      const downbeats = grid.beats.filter((beat) => beat.inBar === 1).map((beat) => beat.timeSec);
      expect(Math.abs(grid.tempoBpm - given.bpm)).toBeLessThan(0.02 * given.bpm);
      expect(shareFound(beatsSec, heard)).toBeGreaterThan(0.95);
      expect(heard.length).toBeLessThanOrEqual(beatsSec.length + 2);
      expect(grid.beatsPerBar).toBe(given.beatsPerBar);
      expect(grid.division).toBe(2);
      expect(grid.freeStretches).toEqual([]);
      expect(
        shareFound(
          beatsSec.filter((_, i) => i % given.beatsPerBar === 0),
          downbeats,
        ),
      ).toBeGreaterThan(0.9);
    });
  }

  it("numbers beats from 1 to the metre, in order of time, over the whole record", () => {
    const { hearing } = groove({ bpm: 100, beatsPerBar: 4, bars: 4, leadInSec: 0.4 });
    const { beats, beatsPerBar } = hearing.grid;
    expect(beats[0]!.timeSec).toBeLessThan(0.6);
    expect(hearing.durationSec - beats.at(-1)!.timeSec).toBeLessThan(0.61);
    beats.forEach((beat, i) => {
      expect(beat.inBar).toBeGreaterThanOrEqual(1);
      expect(beat.inBar).toBeLessThanOrEqual(beatsPerBar);
      if (i > 0) expect(beat.timeSec).toBeGreaterThan(beats[i - 1]!.timeSec);
    });
  });

  it("follow a band that slows down by a tenth", () => {
    const beatsSec = [0.3];
    for (let i = 0; i < 47; i++) beatsSec.push(beatsSec.at(-1)! + 0.5 * (1 + (0.1 * i) / 47));
    const samples = silence(beatsSec.at(-1)! + 0.5);
    const notes = beatsSec.flatMap((startSec, i) => {
      const { bass, upper } = [C, F, G][Math.floor(i / 4) % 3]!;
      return [bass, ...upper].map((midi) => ({ startSec, endSec: startSec + 0.5, midi, level: 0.08 }));
    });
    addClicks(addTones(samples, notes), beatsSec, () => 0.3);
    const heard = hear(samples, RATE_HZ).grid.beats.map((beat) => beat.timeSec);
    expect(shareFound(beatsSec, heard)).toBeGreaterThan(0.95);
  });
});
