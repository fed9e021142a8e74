import { describe, expect, it } from "vitest";
import { changeNotes, changeNow, changesAlong } from "@/lib/client/sound/changeNotes";
import { droneNotes } from "@/lib/client/sound/droneNotes";
import { partNotes, partNotesNow } from "@/lib/client/sound/partNotes";
import { aheadOf, StretchOffsets } from "@/lib/client/sound/StretchOffsets";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { PlayedEvent } from "@/lib/synth/playPart";
import type { BankNote } from "@/lib/synth/StringSet";

const midis = (notes: readonly BankNote[], timbre: string) =>
  notes.filter((note) => note.timbre === timbre).map(({ pluck }) => pluck.pitch[0]!.midi);

describe("bass and chord of a change", () => {
  // Chord tones by Harte's labels (ISMIR 2005); voicings are our own.
  it.each([
    ["G:maj", 31, [50, 55, 59]],
    ["A:min7", 33, [52, 55, 57, 60]],
    ["C:maj/3", 28, [52, 55, 60]],
    ["D:7/b7", 36, [50, 54, 57, 60]],
  ])("%s: bass %i, chord %j", (label, bass, chord) => {
    const notes = changeNotes({ startSec: 2, endSec: 4, label }, [2], 0);
    expect(midis(notes, "bass")).toEqual([bass]);
    expect(midis(notes, "guitar")).toEqual(chord);
    expect(notes.every(({ pluck }) => pluck.startSec >= 2 && pluck.startSec < 2.1 && pluck.endSec < 4)).toBe(
      true,
    );
  });

  it("is none where no chord is played, or where the label is none", () => {
    expect(changeNotes({ startSec: 0, endSec: 1, label: "N" }, [0], 0)).toEqual([]);
    expect(changeNotes({ startSec: 0, endSec: 1, label: "what" }, [0], 0)).toEqual([]);
  });

  it("along the record is struck where the change begins and on each first beat of a bar within it", () => {
    const notes = changesAlong([{ startSec: 1, endSec: 5.1, label: "G:maj" }], [-1, 1.02, 3, 5], 12);
    const bass = notes.filter(({ timbre }) => timbre === "bass").map(({ pluck }) => pluck);
    expect(bass.map(({ startSec }) => startSec)).toEqual([1, 3]);
    expect(bass.map(({ tuningCents }) => tuningCents)).toEqual([12, 12]);
    expect(bass[0]!.endSec).toBeLessThan(3);
  });

  it("is played once, or over and over in its own length, from now on", () => {
    const change = { startSec: 7, endSec: 9, label: "G:maj" };
    expect(changeNow(change, 1, 0).filter(({ timbre }) => timbre === "bass")).toHaveLength(1);
    const starts = changeNow(change, 3, 0)
      .filter(({ timbre }) => timbre === "bass")
      .map(({ pluck }) => pluck.startSec);
    expect(starts).toEqual([0, 2, 4]);
  });
});

describe("the drone", () => {
  it("holds home, its fifth and its octave, in the record's tuning, without end", () => {
    const notes = droneNotes("Bb", -20);
    expect(midis(notes, "drone")).toEqual([46, 53, 58]);
    for (const { pluck } of notes)
      expect([pluck.tuningCents, pluck.endSec]).toEqual([-20, Number.POSITIVE_INFINITY]);
    expect(midis(droneNotes("E", 0), "drone")[0]).toBe(40);
  });
});

describe("the part for the audio thread", () => {
  const event = (startSec: number, changes: string[] = []): PlayedEvent => ({
    ...{ startSec, endSec: startSec + 1, strings: [4, 5], fret: 5, changes, articulation: "pick" },
  });

  it("is in the record's time and tuning, each note with an id that stays while it is the same note", () => {
    const notes = partNotes([event(3)], E9, 9);
    expect(midis(notes, "steel").sort()).toEqual([64, 69]);
    expect(notes.every(({ pluck }) => pluck.tuningCents === 9 && pluck.startSec === 3)).toBe(true);
    const again = partNotes([event(3), event(7)], E9, 9);
    expect(again.slice(0, 2).map(({ id }) => id)).toEqual(notes.map(({ id }) => id));
    expect(new Set(again.map(({ id }) => id)).size).toBe(4);
  });

  it("leaves out what this copedent cannot do, and plays the rest", () => {
    expect(partNotes([event(0, ["Z"]), event(2)], E9, 0)).toHaveLength(2);
  });

  it("begins at once where it is to sound now", () => {
    const notes = partNotesNow([event(30), event(31, ["A"])], E9, 0);
    expect(notes.map(({ pluck }) => pluck.startSec)).toEqual([0, 0, 1, 1]);
    expect(notes.every(({ pluck }) => pluck.pitch.every(({ timeSec }) => timeSec < 3))).toBe(true);
  });
});

describe("how far a slowed record is heard ahead of its own clock", () => {
  it("is told by bursts at known times (0.3, 0.6 and 0.9 s), whichever of them were heard", () => {
    // At half speed the element said 0.27, 0.572 and 0.869 s when they were heard.
    const words = [0, 0.5, 1, 1.5, 2].map((atSec) => ({ atSec: 10 + atSec, saidSec: atSec / 2 }));
    const heardAt = (saidSec: number) => 10 + saidSec * 2;
    expect(aheadOf(words, [0.27, 0.572, 0.869].map(heardAt), 0.5)).toBeCloseTo(0.03, 6);
    expect(aheadOf(words, [heardAt(0.869)], 0.5)).toBeCloseTo(0.031, 6);
  });

  it("is not known where nothing was heard, or only what was no burst", () => {
    expect(aheadOf([{ atSec: 0, saidSec: 0 }], [], 0.5)).toBeNull();
    expect(aheadOf([], [1], 0.5)).toBeNull();
    expect(aheadOf([{ atSec: 0, saidSec: 0 }], [8], 0.5)).toBeNull();
  });

  it("is nothing at full speed, and nothing before it was measured", () => {
    const offsets = new StretchOffsets();
    expect([offsets.at(1), offsets.at(0.5)]).toEqual([0, 0]);
  });
});
