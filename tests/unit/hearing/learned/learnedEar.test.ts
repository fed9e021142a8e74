import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Signal } from "@/lib/dsp/Signal";
import { hear } from "@/lib/hearing/hear";
import { frameSec } from "@/lib/hearing/learned/EarFeatures";
import { halfToNumber } from "@/lib/hearing/learned/loadWeights";
import { readLearnedEar, readLearnedEars } from "@/lib/server/hearing/earWeights";
import { addClicks, addTones, chordNotes, RATE_HZ, silence, type TestChord } from "../band";

vi.setConfig({ testTimeout: 60_000 });

const WEIGHTS = path.resolve(import.meta.dirname, "../../../../lib/hearing/learned/weights");
const BEAT_SEC = 0.5;

const CHORDS: TestChord[] = [
  { bass: 43, upper: [59, 62, 67], beats: 4 },
  { bass: 36, upper: [60, 64, 67], beats: 4 },
  { bass: 40, upper: [59, 64, 67], beats: 4 },
  { bass: 38, upper: [60, 62, 66, 69], beats: 4 },
  { bass: 43, upper: [59, 62, 67], beats: 4 },
];
const LABELS = ["G:maj", "C:maj", "E:min", "D:7", "G:maj"];

function song(): Float32Array {
  const beats = CHORDS.reduce((sum, chord) => sum + chord.beats, 0);
  const samples = addTones(silence(beats * BEAT_SEC), chordNotes(CHORDS, BEAT_SEC));
  const times = Array.from({ length: beats }, (_, i) => i * BEAT_SEC);
  return addClicks(samples, times, (i) => (i % 4 === 0 ? 0.3 : 0.15));
}

/** The chord sounding at a moment. */
function labelAt(chords: { startSec: number; endSec: number; label: string }[], timeSec: number): string {
  return chords.find(({ startSec, endSec }) => startSec <= timeSec && timeSec < endSec)?.label ?? "none";
}

describe("the learned ear", () => {
  it("hears a song of five chords: its changes, its beats and its home", async () => {
    const ear = await readLearnedEar();
    expect(ear).not.toBeNull();
    const heard = hear(song(), RATE_HZ, { ear });
    expect(heard.version).toContain(ear!.version);
    LABELS.forEach((label, bar) => {
      expect(labelAt(heard.chords, (4 * bar + 2) * BEAT_SEC)).toBe(label);
    });
    // Bare tones with a click leave open which level of the metre is the beat: the click's or every second one.
    const level = Math.log2(heard.grid.tempoBpm / 120);
    expect([-1, 0]).toContain(Math.round(level));
    expect(level).toBeCloseTo(Math.round(level), 2);
    expect(heard.homes.map(({ tonic, mode }) => `${tonic} ${mode}`)).toEqual(["G major"]);
  });

  it("claims nothing of silence: no beat, bar, home, bass or section", async () => {
    for (const ears of [{}, await readLearnedEars()]) {
      const heard = hear(silence(20), RATE_HZ, { ...ears, notes: true });
      const { grid, homes, chords, bass, sections, notes } = heard;
      expect([grid.beatsConfidence, grid.barsConfidence]).toEqual([0, 0]);
      expect(grid.freeStretches).toEqual([{ startSec: 0, endSec: 20 }]);
      // Each of 24 keys is as likely as the others.
      expect(homes.map(({ confidence }) => confidence)).toEqual([expect.closeTo(1 / 24, 6)]);
      expect(chords.map(({ label }) => label)).toEqual(["N"]);
      expect(sections.map(({ confidence }) => confidence)).toEqual([0]);
      expect(bass).toEqual([]);
      expect(notes).toEqual("notesEar" in ears ? [] : null);
    }
  });

  it("says the same however many frames it hears at once, and when asked again", async () => {
    const ear = await readLearnedEar();
    const signal = Signal.of(song(), RATE_HZ);
    const heard = ear!.listen(signal);
    const again = ear!.listen(signal, undefined, { rowsAtOnce: 7 });
    expect(again.beat).toEqual(heard.beat);
    expect(again.downbeat).toEqual(heard.downbeat);
    expect(again.chordSteps).toEqual(heard.chordSteps);
    expect(heard.chordSteps).toHaveLength(Math.floor(heard.beat.length / 4));
  });

  it("tells where notes sound, frame by frame, in step with the beats", async () => {
    const ear = await readLearnedEar();
    const frames: number[] = [];
    const sounding = new Float32Array(96);
    const map = ear!.noteMaps.indexOf("frame");
    const { beat } = ear!.listen(Signal.of(song(), RATE_HZ), undefined, {
      onNotes: ({ index, values, step }) => {
        frames.push(index);
        // The middle of the first chord.
        if (Math.abs(frameSec(index) - 2 * BEAT_SEC) > 0.2) return;
        for (let s = 0; s < 96; s++) sounding[s] = Math.max(sounding[s]!, values[s * step + map]!);
      },
    });
    expect(frames).toEqual(Array.from(beat, (_, i) => i));
    const { bass, upper } = CHORDS[0]!;
    for (const midi of [bass, ...upper]) expect(sounding[midi - 24]).toBeGreaterThan(0.5);
    expect(sounding[61 - 24]).toBeLessThan(0.5);
  });

  it("tells of a range of semitones what it tells of all", async () => {
    const ear = await readLearnedEar();
    const range = { from: 4, to: 37 };
    const frame = (noteRange?: typeof range) => {
      let kept = new Float32Array();
      let step = 0;
      ear!.listen(Signal.of(song(), RATE_HZ), undefined, {
        onNotes: (told) => {
          if (told.index === 60) kept = told.values.slice();
          step = told.step;
        },
        noteRange,
      });
      return { kept, step };
    };
    const { kept: all, step } = frame();
    const { kept: some } = frame(range);
    const inside = [range.from * step, range.to * step] as const;
    expect(some.slice(...inside)).toEqual(all.slice(...inside));
    expect(all.slice(...inside).some((value) => value > 0.5)).toBe(true);
    expect(some.slice(inside[1]).every((value) => value === 0)).toBe(true);
    expect(all.slice(inside[1]).every((value) => value === 0)).toBe(false);
  });

  it("gives probabilities", async () => {
    const ear = await readLearnedEar();
    const { beat, chordSteps } = ear!.listen(Signal.of(song(), RATE_HZ));
    expect(beat.every((value) => value >= 0 && value <= 1)).toBe(true);
    for (const { chords, bass } of chordSteps) {
      for (const part of [chords, bass]) {
        expect(part.reduce((sum, value) => sum + Math.exp(value), 0)).toBeCloseTo(1, 4);
      }
    }
  });
});

describe("the weights", () => {
  let folder: string;
  beforeEach(async () => {
    folder = await mkdtemp(path.join(tmpdir(), "ear-"));
    await cp(WEIGHTS, folder, { recursive: true });
  });
  afterEach(() => rm(folder, { recursive: true }));

  it("are refused where one byte is not as it was", async () => {
    const file = path.join(folder, "ear.bin");
    const bytes = await readFile(file);
    bytes[1000]! ^= 1;
    await writeFile(file, bytes);
    await expect(readLearnedEar(folder)).rejects.toThrow(/damaged: their checksum/);
  });

  it("are refused where they belong to another network", async () => {
    const file = path.join(folder, "ear.json");
    const manifest = JSON.parse(await readFile(file, "utf8"));
    await writeFile(file, JSON.stringify({ ...manifest, hop: 441 }));
    await expect(readLearnedEar(folder)).rejects.toThrow(/"hop" is 441, not 512/);
  });

  it("are refused where they say other things of notes", async () => {
    const file = path.join(folder, "ear.json");
    const manifest = JSON.parse(await readFile(file, "utf8"));
    await writeFile(file, JSON.stringify({ ...manifest, noteOutputs: manifest.noteOutputs.toReversed() }));
    await expect(readLearnedEar(folder)).rejects.toThrow(/note maps/);
  });

  it("may be missing: the signal alone is then heard", async () => {
    await rm(path.join(folder, "ear.bin"));
    expect(await readLearnedEar(folder)).toBeNull();
  });

  // Values of the interchange format binary16 of IEEE 754-2019 (from memory).
  it.each([
    [0x3c00, 1],
    [0xc000, -2],
    [0x7bff, 65_504],
    [0x0400, 2 ** -14],
    [0x0001, 2 ** -24],
    [0x3555, 0.333251953125],
  ])("read the half-precision number %i", (bits, value) => {
    expect(halfToNumber(bits)).toBe(value);
  });
});
