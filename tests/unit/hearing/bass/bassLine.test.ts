import { describe, expect, it } from "vitest";
import { BASS_PITCHES, LOWEST_BASS } from "@/lib/hearing/bass/BassEvidence";
import { hearBassLine } from "@/lib/hearing/bass/bassLine";
import { learnedBass } from "@/lib/hearing/bass/learnedBass";
import { FRAME_RATE_HZ, frameSec } from "@/lib/hearing/learned/EarFeatures";
import type { TestNote } from "../band";

const BEAT_SEC = 0.5;
const [E1, C2, G2, C3, E3, G3] = [28, 36, 43, 48, 52, 55];

interface Played extends TestNote {
  /** How sure the ear is of its beginning, and of its sounding. */
  onset?: number;
  sounding?: number;
}

/** Note maps as a network gives them: an onset is a triangle 1.6 frames each way, as it is taught. */
function mapsOf(notes: readonly Played[], durationSec: number) {
  const count = Math.ceil(durationSec * FRAME_RATE_HZ) + 16;
  const rows = (value: number) =>
    Array.from({ length: count }, () => new Float32Array(BASS_PITCHES).fill(value));
  const maps = { onset: rows(0.005), sounding: rows(0.01) };
  for (const { startSec, endSec, midi, onset = 0.95, sounding = 0.97 } of notes) {
    const pitch = midi - LOWEST_BASS;
    for (let t = 0; t < count; t++) {
      const fromStart = (frameSec(t) - startSec) * FRAME_RATE_HZ;
      const height = onset * Math.max(0, 1 - Math.abs(fromStart) / 1.6);
      maps.onset[t]![pitch] = Math.max(maps.onset[t]![pitch]!, height);
      if (frameSec(t) >= startSec && frameSec(t) < endSec) maps.sounding[t]![pitch] = sounding;
    }
  }
  return maps;
}

function hear(notes: readonly Played[], durationSec = 8) {
  const beatsSec = Array.from({ length: Math.ceil(durationSec / BEAT_SEC) }, (_, i) => i * BEAT_SEC);
  return hearBassLine(learnedBass(mapsOf(notes, durationSec)), beatsSec, durationSec);
}

/** Notes one after another, each so many beats long, from `startSec` on; null is a rest. */
function line(midis: readonly (number | null)[], beatsEach: number, startSec = 1): Played[] {
  return midis.flatMap((midi, i) => {
    const from = startSec + i * beatsEach * BEAT_SEC;
    return midi === null ? [] : [{ startSec: from, endSec: from + beatsEach * BEAT_SEC, midi }];
  });
}

function expectHeard(notes: readonly Played[]): void {
  const heard = hear(notes);
  expect(heard.map(({ midi }) => midi)).toEqual(notes.map(({ midi }) => midi));
  heard.forEach((note, i) => {
    // The nearest frame.
    expect(Math.abs(note.startSec - notes[i]!.startSec)).toBeLessThanOrEqual(0.5 / FRAME_RATE_HZ + 1e-9);
    expect(Math.abs(note.endSec - notes[i]!.endSec)).toBeLessThan(0.06);
  });
}

describe("the bass line out of note maps", () => {
  it("walks up to the next chord in quarters and in eighths", () => {
    expectHeard(line([36, 38, 40, 41], 1));
    expectHeard(line([36, 38, 39, 40, 41], 0.5));
  });

  it("plays root and fifth, and octaves up and down", () => {
    expectHeard(line([C2, G2, C2, G2, 41, 36], 2));
    expectHeard(line([C2, C3, C2, C3], 1));
  });

  it("holds one note as one, and strikes repeated notes anew each time", () => {
    expectHeard([{ startSec: 1, endSec: 6, midi: E1 }]);
    expectHeard(line([C2, C2, C2, C2, C2, C2], 0.5));
  });

  it("rests where nothing low sounds", () => {
    expectHeard(line([C2, null, null, G2, null, C2], 1));
    expect(hear([])).toEqual([]);
  });

  it("takes the lowest of a chord, and nothing that lies above a bass", () => {
    const chord = [G2, C3, E3, G3, 60].map((midi) => ({ startSec: 1, endSec: 3, midi }));
    expectHeard([{ startSec: 1, endSec: 3, midi: C2 }]);
    const dimmer = { startSec: 1, endSec: 3, midi: C2, sounding: 0.85, onset: 0.85 };
    expect(hear([...chord, dimmer]).map(({ midi }) => midi)).toEqual([C2]);
    expect(hear([{ startSec: 1, endSec: 3, midi: 60 }])).toEqual([]);
  });

  it("has each onset stand in one frame, the nearest", () => {
    const notes = line([C2, G2], 1);
    const { onset } = learnedBass(mapsOf(notes, 4));
    for (const { startSec, midi } of notes) {
      const likely = Array.from({ length: onset.rows }, (_, t) => t).filter(
        (t) => onset.row(t)[midi - LOWEST_BASS]! > 0,
      );
      expect(likely).toHaveLength(1);
      expect(Math.abs(frameSec(likely[0]!) - startSec)).toBeLessThanOrEqual(0.5 / FRAME_RATE_HZ + 1e-9);
    }
  });

  it("believes a weak onset on a beat sooner than the same between", () => {
    const strikeAgain = (againSec: number): Played[] => [
      { startSec: 1, endSec: 4, midi: C2 },
      { startSec: againSec, endSec: 4, midi: C2, onset: 0.75 },
    ];
    expect(hear(strikeAgain(2))).toHaveLength(2);
    expect(hear(strikeAgain(2.1))).toHaveLength(1);
  });

  it("is less sure of what is less clear, and tells notes in order without overlap", () => {
    const notes = [...line([C2, G2], 1), ...line([41], 2, 4).map((note) => ({ ...note, sounding: 0.75 }))];
    const heard = hear(notes);
    expect(heard.map(({ midi }) => midi)).toEqual([C2, G2, 41]);
    const [clear, , dim] = heard.map(({ confidence }) => confidence);
    expect(clear).toBeGreaterThan(0.9);
    expect(dim).toBeLessThan(clear! - 0.02);
    for (const { confidence } of heard) expect(confidence).toBeLessThanOrEqual(1);
    for (const [i, note] of heard.slice(1).entries()) {
      expect(note.startSec).toBeGreaterThanOrEqual(heard[i]!.endSec);
    }
  });

  it("stays inside the record, however short", () => {
    for (const durationSec of [0, 0.01, 0.3]) {
      for (const note of hear([{ startSec: 0, endSec: 1, midi: C2 }], durationSec)) {
        expect(note.startSec).toBeGreaterThanOrEqual(0);
        expect(note.endSec).toBeLessThanOrEqual(durationSec);
        expect(note.endSec).toBeGreaterThan(note.startSec);
      }
    }
  });
});
