import { describe, expect, it } from "vitest";
import { noteAt, notesPx, noteY, numbered, tracePath } from "@/app/songs/[songId]/parts/noteLayout";

const note = (startSec: number, endSec: number, midi: number, toMidi?: number) => ({
  startSec,
  endSec,
  midi,
  glides:
    toMidi === undefined
      ? []
      : [{ kind: "bar" as const, toMidi, atSec: (startSec + endSec) / 2, durationSec: 0.2 }],
});
const pxPerSec = 100;
const toPx = (sec: number) => sec * pxPerSec;

describe("the lane of heard notes", () => {
  it("holds every pitch that is reached, higher ones further up", () => {
    const notes = [note(0, 1, 40, 84), note(0, 1, 64), note(1, 2, 64.5)];
    const yOf = noteY(notes, notesPx(false));
    for (const midi of [40, 64, 84]) {
      expect(yOf(midi)).toBeGreaterThan(0);
      expect(yOf(midi)).toBeLessThan(notesPx(false));
    }
    expect(yOf(84)).toBeLessThan(yOf(64.5));
    expect(yOf(64.5)).toBeLessThan(yOf(64));
  });

  it("draws a glide as a sloping line between level ones", () => {
    const yOf = (midi: number) => 100 - midi;
    expect(tracePath(note(1, 3, 64), toPx, yOf)).toBe("M100 36L298 36");
    expect(tracePath(note(1, 3, 64, 66), toPx, yOf)).toBe("M100 36L190 36L210 34L298 34");
    // However short it is, something is seen of it.
    expect(tracePath(note(1, 1.001, 64), toPx, yOf)).toBe("M100 36L102 36");
  });

  it("finds the trace nearest to a click, along its glides, and none where none is near", () => {
    const yOf = (midi: number) => 100 - 3 * (midi - 60);
    const low = note(1, 3, 62, 66);
    const high = note(1, 3, 70);
    const at = (timeSec: number, midi: number) =>
      noteAt([low, high], { timeSec, y: yOf(midi) }, pxPerSec, yOf);
    expect(at(1.5, 62)).toBe(low);
    expect(at(2.5, 66)).toBe(low);
    expect(at(1.5, 69)).toBe(high);
    expect(at(3.1, 70)).toBe(high);
    expect(at(3.5, 70)).toBeNull();
    expect(at(1.5, 80)).toBeNull();
  });

  it("puts numbers only where they do not stand on one another", () => {
    const yOf = (midi: number) => 100 - 3 * (midi - 60);
    const [low, third, far, later] = [note(1, 2, 62), note(1, 2, 65), note(1, 2, 68), note(1.5, 2, 62)];
    expect(numbered([low, third, far, later], toPx, yOf)).toEqual([low, far, later]);
  });
});
