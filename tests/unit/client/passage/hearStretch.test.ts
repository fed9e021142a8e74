import { describe, expect, it, vi } from "vitest";
import { hearStretch } from "@/lib/client/hearing/passage/hearStretch";
import { framesFor, toldPassage } from "@/lib/client/hearing/passage/passageFrames";
import { heardWords, stepWords, whyNotHeard } from "@/lib/client/hearing/passage/passageWords";
import { midAndSide, type RecordStretch } from "@/lib/client/record/RecordStretch";
import { decodeFrames } from "@/lib/contracts/earCopy";
import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import type { HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { hearPassage } from "@/lib/hearing/notes/hearPassage";
import { roundNote } from "@/lib/hearing/notes/roundNote";
import { RecordIntake } from "@/lib/hearing/RecordIntake";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { EarCopyMaker } from "@/lib/server/media/EarCopyMaker";
import { renderDemoRecord } from "@/prisma/demo/renderDemo";

vi.setConfig({ testTimeout: 120_000 });

const ear = (await readLearnedEars()).notesEar!;
const { channels, sampleRateHz } = renderDemoRecord();

/** The record as the server keeps it for the ear, as if all of it were fetched. */
function copied() {
  const parts: Uint8Array[] = [];
  const maker = new EarCopyMaker({ append: (bytes) => parts.push(bytes), rewriteStart: () => {} });
  maker.begin(channels.length, sampleRateHz);
  maker.take(channels, channels[0]!.length);
  const { level, sideLevel } = maker.finish();
  return {
    level,
    sideLevel,
    frames: decodeFrames(new Uint8Array(Buffer.concat(parts.slice(1))), { channelCount: 2 }),
  };
}
const copy = copied();

function stretchFor(passage: HeardStretch): RecordStretch {
  const { startFrame, endFrame } = framesFor(passage, 22_050);
  const parts = copy.frames.map((channel) => channel.slice(startFrame, endFrame));
  const { level, sideLevel } = copy;
  return { sampleRateHz: 22_050, startFrame, level, sideLevel, ...midAndSide(parts) };
}

/** As the server hears it: all of the record in memory, in single floats. */
function asOnTheServer(passage: HeardStretch): HeardNote[] {
  const intake = new RecordIntake(sampleRateHz);
  intake.take(channels, channels[0]!.length);
  return hearPassage({ ...intake.finish(), tuningCents: 0, ear }, passage).map(roundNote);
}

const facts = ({ startSec, endSec, midi, glides }: HeardNote) => ({
  startSec,
  endSec,
  midi,
  moves: glides.length,
});

describe("a passage heard from a part of the copy", () => {
  it.each([
    { startSec: 12.345, endSec: 22.345 },
    { startSec: 0, endSec: 4 },
    { startSec: 30, endSec: 60 },
  ])("is heard as the server hears it in the whole record (%o)", (passage) => {
    const here = hearStretch(ear, stretchFor(passage), passage, 0);
    const there = asOnTheServer(passage);
    expect(there.length).toBeGreaterThan(10);
    expect(here.length).toBe(there.length);
    here.map(facts).forEach((note, index) => {
      const other = facts(there[index]!);
      expect(note.moves).toBe(other.moves);
      // 16 bits are not single floats: an onset may come out a millisecond or two beside.
      expect(Math.abs(note.startSec - other.startSec)).toBeLessThan(0.005);
      expect(Math.abs(note.endSec - other.endSec)).toBeLessThan(0.03);
      expect(Math.abs(note.midi - other.midi)).toBeLessThan(0.05);
      expect(Math.abs(here[index]!.steel - there[index]!.steel)).toBeLessThan(0.05);
    });
  });

  it("brings the record's own level with it: a quiet copy is heard alike", () => {
    const passage = { startSec: 10, endSec: 14 };
    const loud = stretchFor(passage);
    const [mid, side] = [loud.mid, loud.side!].map((part) => part.map((sample) => sample / 8));
    const quiet = { ...loud, level: loud.level / 8, mid: mid!, side: side! };
    expect(hearStretch(ear, quiet, passage, 0)).toEqual(hearStretch(ear, loud, passage, 0));
  });

  it.each([
    ["stereo", 0.01, true],
    ["mono, for its channels are as good as alike", 0.0001, false],
  ])("takes the whole record's word for whether it is %s", (_, sideLevel, isStereo) => {
    const heard: StereoSignal[] = [];
    const listen = (sound: StereoSignal) => void heard.push(sound);
    const deaf = { noteMaps: [], listen } as unknown as NotesEar;
    const sound = new Float32Array(4 * 22_050).fill(0.25);
    const stretch = { sampleRateHz: 22_050, startFrame: 0, level: 0.5, sideLevel, mid: sound, side: sound };
    hearStretch(deaf, stretch, { startSec: 0, endSec: 1 }, 0);
    const { signal, side } = heard[0]!;
    expect(side !== null).toBe(isStereo);
    // Both by the factor that brings the record to 0.1.
    for (const part of [signal, side ?? signal])
      expect(part.read(22_050, new Float32Array(1))[0]).toBeCloseTo(0.05, 6);
  });

  it("finds the tuning itself where the song does not say it yet", () => {
    const passage = { startSec: 10, endSec: 14 };
    const told = hearStretch(ear, stretchFor(passage), passage, 0);
    const found = hearStretch(ear, stretchFor(passage), passage, null);
    expect(found.map(({ midi }) => Math.round(midi))).toEqual(told.map(({ midi }) => Math.round(midi)));
  });

  it("gives notes that begin within it to the millisecond, and says how far it is", () => {
    const passage = toldPassage({ startSec: 9.99951, endSec: 15.00049 });
    expect(passage).toEqual({ startSec: 10, endSec: 15 });
    const told: number[] = [];
    const notes = hearStretch(ear, stretchFor(passage), passage, 0, (index, count) =>
      told.push(index / count),
    );
    for (const { startSec } of notes) {
      expect(startSec >= passage.startSec && startSec < passage.endSec).toBe(true);
      expect(Number(startSec.toFixed(3))).toBe(startSec);
    }
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect([told[0], told.at(-1)! > 0.99]).toEqual([0, true]);
  });

  it("may lie past the end of the record, and then holds nothing", () => {
    const past = {
      sampleRateHz: 22_050,
      startFrame: 900_000,
      sideLevel: 0,
      level: 0.1,
      mid: new Float32Array(0),
      side: null,
    };
    expect(hearStretch(ear, past, { startSec: 100, endSec: 104 }, 0)).toEqual([]);
  });
});

describe("which frames a passage is heard from", () => {
  it("begin where a frame of the ear does, never before the record", () => {
    expect(framesFor({ startSec: 1, endSec: 2 }, 22_050).startFrame).toBe(0);
    const { startFrame, endFrame } = framesFor({ startSec: 10, endSec: 20 }, 22_050);
    expect(startFrame % 512).toBe(0);
    expect(startFrame).toBeLessThanOrEqual((10 - 3.2) * 22_050);
    expect(endFrame).toBeGreaterThanOrEqual((20 + 3.2) * 22_050);
  });
});

describe("what is said of it", () => {
  const note = (steel: number): HeardNote => ({
    startSec: 0,
    endSec: 1,
    midi: 60,
    confidence: 1,
    steel,
    glides: [],
  });

  it("counts the steel's notes, and says whether anything was written", () => {
    expect(heardWords([], true)).toBe("No note of the steel was heard here.");
    expect(heardWords([note(0.9), note(0.1)], true)).toBe("One note of the steel heard here, in pencil.");
    expect(heardWords([note(0.9), note(0.5)], false)).toBe(
      "2 notes of the steel heard here, as they stood already.",
    );
  });

  it("says why a passage cannot be heard at once", () => {
    expect(whyNotHeard({ startSec: 3, endSec: 63 })).toBeNull();
    expect(whyNotHeard({ startSec: 3, endSec: 63.1 })).toMatch(/a minute or less/);
    expect(whyNotHeard({ startSec: 3, endSec: 3.01 })).toMatch(/no room/);
  });

  it("says what is being done, and how far it is where that is known", () => {
    expect(stepWords({ name: "hear", fraction: 0.624 })).toBe("Hearing the notes, 62 %");
    expect(stepWords({ name: "fetch", fraction: 0 })).toBe("Fetching the passage");
  });
});
