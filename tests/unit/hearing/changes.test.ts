import { describe, expect, it, vi } from "vitest";
import type { Hearing } from "@/lib/hearing/Hearing";
import { hear } from "@/lib/hearing/hear";
import { parseHarte } from "@/lib/theory/harte";
import { addClicks, addTones, chordNotes, RATE_HZ, silence, type TestChord } from "./band";

const BEAT_SEC = 0.5;

// Hearing whole records takes long on a machine that does much else; nothing here measures time.
vi.setConfig({ testTimeout: 60_000 });

/** Plays the chords, a click on each beat, and hears them. */
function heardFrom(chords: TestChord[], tuningCents = 0): Hearing {
  const beats = chords.reduce((sum, chord) => sum + chord.beats, 0);
  const samples = addTones(silence(beats * BEAT_SEC), chordNotes(chords, BEAT_SEC), tuningCents);
  addClicks(
    samples,
    Array.from({ length: beats }, (_, i) => i * BEAT_SEC),
    () => 0.1,
  );
  return hear(samples, RATE_HZ);
}

/** Labels in order, repeats joined. */
function labels(hearing: Hearing): string[] {
  return hearing.chords.map(({ label }) => label).filter((label, i, all) => label !== all[i - 1]);
}

// Notes of the chords by their names in Harte et al., ISMIR 2005; MIDI 60 = C4.
const SONG: TestChord[] = [
  { bass: 43, upper: [59, 62, 67], beats: 4 }, // G
  { bass: 36, upper: [60, 64, 67], beats: 4 }, // C
  { bass: 40, upper: [59, 64, 67], beats: 4 }, // E minor
  { bass: 38, upper: [60, 66, 69], beats: 4 }, // D7
  { bass: 43, upper: [59, 62, 67], beats: 8 }, // G
];

let heardSong: Hearing | undefined;

/** The song above, heard once for all tests. */
function songHeard(): Hearing {
  heardSong ??= heardFrom(SONG);
  return heardSong;
}

describe("changes", () => {
  it("are heard by root, quality and time", () => {
    const hearing = songHeard();
    expect(labels(hearing)).toEqual(["G:maj", "C:maj", "E:min", "D:7", "G:maj"]);
    const starts = hearing.chords.map(({ startSec }) => startSec);
    [0, 2, 4, 6, 8].forEach((time, i) => {
      expect(Math.abs(starts[i]! - time)).toBeLessThan(0.1);
    });
    expect(hearing.homes.map(({ tonic, mode }) => `${tonic} ${mode}`)).toEqual(["G major"]);
  });

  it("are the same when the whole record stands 23 cents sharp, and that is heard as tuning", () => {
    const hearing = heardFrom(SONG, 23);
    expect(Math.abs(hearing.tuningCents - 23)).toBeLessThan(2);
    expect(labels(hearing)).toEqual(labels(songHeard()));
  });

  it("are spelled for the home: flats in Ab, sharps in E", () => {
    const up = (by: number): TestChord[] =>
      SONG.map(({ bass, upper, beats }) => ({
        bass: bass + by,
        upper: upper.map((midi) => midi + by),
        beats,
      }));
    // I IV vi V7 I in Ab and in E: every root is a note of the major scale, spelled as the signature has it.
    expect(labels(heardFrom(up(1)))).toEqual(["Ab:maj", "Db:maj", "F:min", "Eb:7", "Ab:maj"]);
    expect(labels(heardFrom(up(-3)))).toEqual(["E:maj", "A:maj", "C#:min", "B:7", "E:maj"]);
  });

  it("carry the bass where another chord tone stays there, not where root and fifth alternate", () => {
    const overThird = heardFrom([
      { bass: 43, upper: [59, 62, 67], beats: 8 },
      { bass: 40, upper: [60, 64, 67, 72], beats: 8 }, // C over E
      { bass: 43, upper: [59, 62, 67], beats: 8 },
    ]);
    expect(labels(overThird)).toEqual(["G:maj", "C:maj/3", "G:maj"]);
    const alternating = heardFrom(
      Array.from({ length: 24 }, (_, i): TestChord => {
        const [root, upper] = i < 8 || i >= 16 ? [43, [59, 62, 67]] : [36, [60, 64, 67]];
        return { bass: i % 2 === 0 ? root : root + (root === 43 ? -5 : 7), upper, beats: 1 };
      }),
    );
    expect(labels(alternating)).toEqual(["G:maj", "C:maj", "G:maj"]);
  });

  it("lie in order without gaps over the record, as labels that can be read, surer than a guess", () => {
    const hearing = songHeard();
    let at = 0;
    for (const { startSec, endSec, label, confidence } of hearing.chords) {
      expect(startSec).toBeCloseTo(at, 9);
      expect(endSec).toBeGreaterThan(startSec);
      at = endSec;
      expect(() => parseHarte(label)).not.toThrow();
      expect(confidence).toBeGreaterThan(0.5);
      expect(confidence).toBeLessThanOrEqual(1);
    }
    expect(at).toBeCloseTo(hearing.durationSec, 9);
  });
});
