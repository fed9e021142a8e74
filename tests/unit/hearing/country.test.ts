import { beforeAll, describe, expect, it, vi } from "vitest";
import type { Hearing } from "@/lib/hearing/Hearing";
import { hear } from "@/lib/hearing/hear";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { addClicks, addTones, RATE_HZ, silence, type TestNote } from "./band";

const ear = await readLearnedEar();
const BEAT_SEC = 0.65;
const LEAD_IN_SEC = 0.2;

// Hearing whole records takes long on a machine that does much else; nothing here measures time.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });

/** A note from one beat to another. */
function note(from: number, to: number, midi: number, level: number): TestNote {
  return { startSec: LEAD_IN_SEC + from * BEAT_SEC, endSec: LEAD_IN_SEC + to * BEAT_SEC, midi, level };
}

/** A strum on each beat from one to another, short of the next. */
function strums(from: number, to: number, midis: number[]): TestNote[] {
  const notes: TestNote[] = [];
  for (let beat = from; beat < to; beat = Math.floor(beat + 1)) {
    const end = Math.min(to, Math.floor(beat + 1));
    for (const midi of midis) notes.push(note(beat, end, midi, 0.06));
  }
  return notes;
}

/** Hears notes over a click on each beat, the first of four louder. */
function heardOf(notes: TestNote[], beats: number): Hearing {
  const samples = addTones(silence(LEAD_IN_SEC + beats * BEAT_SEC), notes);
  addClicks(
    samples,
    Array.from({ length: beats }, (_, i) => LEAD_IN_SEC + i * BEAT_SEC),
    (i) => (i % 4 === 0 ? 0.2 : 0.1),
  );
  return hear(samples, RATE_HZ, { ear });
}

/** Labels without the silence before, and the beats on which they begin. */
function changesOf(hearing: Hearing): { labels: string[]; beats: number[] } {
  const chords = hearing.chords.filter(({ label }) => label !== "N");
  return {
    labels: chords.map(({ label }) => label),
    beats: chords.map(({ startSec }) => (startSec - LEAD_IN_SEC) / BEAT_SEC),
  };
}

const G = [59, 62, 67];
const C = [60, 64, 67];
const D = [57, 62, 66];

describe("a two-beat band", () => {
  let hearing: Hearing;
  beforeAll(() => {
    // Root and fifth by turns on beats 1 and 3; the last half bar before the C walks up G A B to it.
    const bass = [43, 38, 43, 38, 43, 38, 36, 43, 36, 43, 38, 45, 38, 45, 43, 38];
    const notes = bass.map((midi, i) => note(2 * i, 2 * i + 2, midi, 0.15));
    notes.splice(5, 1, note(10, 11, 45, 0.15), note(11, 12, 47, 0.15));
    notes.push(...strums(0, 12, G), ...strums(12, 20, C), ...strums(20, 28, D), ...strums(28, 32, G));
    hearing = heardOf(notes, 32);
  });

  it("plays root positions, whatever fifths and passing notes its bass plays", () => {
    expect(changesOf(hearing).labels).toEqual(["G:maj", "C:maj", "D:maj", "G:maj"]);
  });

  it("changes where its chords do, not where its bass sets out", () => {
    const { beats } = changesOf(hearing);
    [12, 20, 28].forEach((beat, i) => {
      expect(Math.abs(beats[i + 1]! - beat)).toBeLessThan(0.2);
    });
  });
});

describe("a push", () => {
  it("is heard an eighth ahead of the bar, and the changes on the bar stay there", () => {
    // The C comes in on the last eighth of its bar before, the D on the bar.
    const notes = [
      ...[0, 4].map((beat) => note(beat, Math.min(beat + 4, 7.5), 43, 0.15)),
      ...strums(0, 7.5, G),
      note(7.5, 12, 36, 0.15),
      note(12, 16, 36, 0.15),
      ...strums(7.5, 16, C),
      note(16, 20, 38, 0.15),
      note(20, 24, 38, 0.15),
      ...strums(16, 24, D),
      note(24, 32, 43, 0.15),
      ...strums(24, 32, G),
    ];
    const { labels, beats } = changesOf(heardOf(notes, 32));
    expect(labels).toEqual(["G:maj", "C:maj", "D:maj", "G:maj"]);
    [7.5, 16, 24].forEach((beat, i) => {
      expect(Math.abs(beats[i + 1]! - beat)).toBeLessThan(0.2);
    });
  });
});

describe("a bass that stays", () => {
  it("is told with the chord, from the bar on which it settles", () => {
    const notes = [
      note(0, 8, 43, 0.15),
      ...[8, 12].map((beat) => note(beat, beat + 4, 47, 0.15)),
      ...strums(0, 16, G),
      ...[16, 20].map((beat) => note(beat, beat + 4, 36, 0.15)),
      ...strums(16, 24, C),
      ...[24, 28].map((beat) => note(beat, beat + 4, 43, 0.15)),
      ...strums(24, 32, G),
    ];
    const { labels, beats } = changesOf(heardOf(notes, 32));
    expect(labels).toEqual(["G:maj", "G:maj/3", "C:maj", "G:maj"]);
    expect(Math.abs(beats[1]! - 8)).toBeLessThan(0.2);
  });
});
