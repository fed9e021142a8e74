import { describe, expect, it } from "vitest";
import { mainHome, toAnalysis } from "@/lib/cli/analysisJson";
import type { HeardHome } from "@/lib/hearing/Hearing";

const home = (startSec: number, endSec: number, tonic: string, confidence: number): HeardHome => {
  return { startSec, endSec, tonic, mode: "major", confidence, nextBest: [] };
};

describe("a hearing as JSON", () => {
  it("names the home with the most seconds, all its stretches together", () => {
    const homes = [home(0, 10, "G", 0.5), home(10, 25, "A", 0.9), home(25, 35, "G", 1)];
    expect(mainHome(homes)).toEqual({ tonic: "G", mode: "major", confidence: 0.75 });
  });

  it("keeps times to the millisecond, and downbeats as the beats that begin a bar", () => {
    const analysis = toAnalysis({
      version: "test",
      durationSec: 2,
      tuningCents: -12.34567,
      tuningConfidence: 1,
      grid: {
        beats: [
          { timeSec: 0.12345, inBar: 2 },
          { timeSec: 0.7, inBar: 1 },
        ],
        tempoBpm: 104.00049,
        beatsPerBar: 2,
        division: 2,
        freeStretches: [],
        beatsConfidence: 1,
        barsConfidence: 1,
      },
      homes: [home(0, 2, "G", 0.8)],
      chords: [{ startSec: 0, endSec: 2, label: "G:maj", confidence: 0.98765, nextBest: [] }],
      bass: [{ startSec: 0.00049, endSec: 1.2, midi: 43, confidence: 0.55555 }],
      sections: [
        { startSec: 0, endSec: 1, label: "A", transposedSemitones: 0, confidence: 1 },
        { startSec: 1, endSec: 2, label: "A", transposedSemitones: -2, confidence: 0.5 },
      ],
    });
    expect(analysis).toEqual({
      tuningCents: -12.346,
      key: { tonic: "G", mode: "major", confidence: 0.8 },
      tempo: 104,
      meter: 2,
      beats: [0.123, 0.7],
      downbeats: [0.7],
      chords: [{ start: 0, end: 2, label: "G:maj", confidence: 0.988 }],
      homes: [{ start: 0, end: 2, tonic: "G", mode: "major", confidence: 0.8 }],
      bass: [{ start: 0, end: 1.2, midi: 43, confidence: 0.556 }],
      sections: [
        { start: 0, end: 1, label: "A", transposed: 0, confidence: 1 },
        { start: 1, end: 2, label: "A", transposed: -2, confidence: 0.5 },
      ],
    });
  });
});
