import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { moveChord, movedBetween, repeatSection } from "@/lib/client/song/repeatSection";
import type { ShownBassNote, ShownChange } from "@/lib/document/read/SongSnapshot";
import { setMeter } from "@/lib/notation/beats/meter";
import { repeatBars } from "@/lib/notation/repeatBars";
import type { Key } from "@/lib/theory/key";
import { gridOf } from "../notation/beats/anyGrid";

const G: Key = { tonic: "G", mode: "major" };
const A: Key = { tonic: "A", mode: "major" };
/** Bars of two seconds. */
const GRID = gridOf(4, 4, 4, 4, 4, 4, 4, 4);
const VERSE = { startSec: 0, endSec: 4 };
const AGAIN = { startSec: 8, endSec: 12 };

describe("bars that repeat others", () => {
  it("have everything at the same beat of the same bar", () => {
    const there = repeatBars(GRID, VERSE, AGAIN);
    expect(there({ startSec: 0, endSec: 2 })).toEqual({ startSec: 8, endSec: 10 });
    expect(there({ startSec: 2.5, endSec: 3.25 })).toEqual({ startSec: 10.5, endSec: 11.25 });
    expect(there({ startSec: 6, endSec: 7 })).toBeNull();
  });

  it("follow another tempo and cut off what a shorter bar has no room for", () => {
    const slower = {
      ...GRID,
      beatsSec: GRID.beatsSec.map((sec, beat) => (beat < 16 ? sec : 8 + (sec - 8) * 1.5)),
    };
    expect(repeatBars(slower, VERSE, { startSec: 8, endSec: 14 })({ startSec: 1, endSec: 3 })).toEqual({
      startSec: 9.5,
      endSec: 12.5,
    });
    const cut = setMeter(GRID, 16, 3, "bar");
    const there = repeatBars(cut, VERSE, { startSec: 8, endSec: 11.5 });
    expect(there({ startSec: 1, endSec: 2 })).toEqual({ startSec: 9, endSec: 9.5 });
    expect(there({ startSec: 1.6, endSec: 2 })).toBeNull();
    expect(there({ startSec: 2, endSec: 4 })).toEqual({ startSec: 9.5, endSec: 11.5 });
  });

  it("stay in order wherever they fall", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, share, share, (one, other, from, to) => {
        const fromSec = Math.floor(from * 6) * 2;
        const toSec = Math.floor(to * 6) * 2;
        const there = repeatBars(
          GRID,
          { startSec: fromSec, endSec: fromSec + 4 },
          { startSec: toSec, endSec: toSec + 4 },
        );
        const [startSec, endSec] = [fromSec + Math.min(one, other) * 4, fromSec + Math.max(one, other) * 4];
        if (endSec - startSec < 0.01) return;
        const placed = there({ startSec, endSec })!;
        expect(placed.startSec - toSec).toBeCloseTo(startSec - fromSec, 5);
        expect(placed.endSec - toSec).toBeCloseTo(endSec - fromSec, 5);
      }),
    );
  });
});

describe("a section as another has it", () => {
  const change = (startSec: number, endSec: number, label: string, mark: "ink" | "pencil") =>
    ({ startSec, endSec, label, mark }) as ShownChange;
  const song = {
    changes: [change(0, 2, "G:maj", "ink"), change(2, 5, "C:maj/3", "pencil"), change(5, 8, "D:7", "ink")],
    bass: [{ startSec: 2, endSec: 3, midi: 40, mark: "pencil" } as ShownBassNote],
  };

  it("is copied with its marks, moved, and spelled for the home there", () => {
    const keyAt = (timeSec: number) => (timeSec < 8 ? G : A);
    const { copies, into } = repeatSection(song, GRID, { from: VERSE, to: AGAIN, semitones: 2, keyAt });
    expect(into).toEqual(AGAIN);
    expect(copies).toEqual({
      changes: [
        { startSec: 8, endSec: 10, label: "A:maj", mark: "ink" },
        { startSec: 10, endSec: 12, label: "D:maj/3", mark: "pencil" },
      ],
      bass: [{ startSec: 10, endSec: 11, midi: 42, mark: "pencil" }],
    });
  });

  it("takes over no more bars than the other has", () => {
    const { copies, into } = repeatSection(song, GRID, {
      from: VERSE,
      to: { startSec: 8, endSec: 16 },
      semitones: 0,
      keyAt: () => G,
    });
    expect(into).toEqual(AGAIN);
    expect(copies.changes.at(-1)?.endSec).toBe(12);
  });

  it("begins with a pickup on the beat of the bar that it is", () => {
    const pickup = { ...GRID, inBar: [4, ...GRID.inBar.slice(0, -1)] };
    const there = repeatBars(pickup, { startSec: 0, endSec: 2.5 }, { startSec: 2.5, endSec: 6.5 });
    expect(there({ startSec: 0, endSec: 0.5 })).toEqual({ startSec: 4, endSec: 4.5 });
    expect(there({ startSec: 0.5, endSec: 2.5 })).toEqual({ startSec: 4.5, endSec: 6.5 });
  });

  it("moves chords by half steps and back", () => {
    expect(moveChord("F:min7", 1, { tonic: "E", mode: "major" })).toBe("F#:min7");
    expect(moveChord("N", 3, G)).toBe("N");
    expect(moveChord("Bb:7", 0, G)).toBe("Bb:7");
    expect(moveChord(moveChord("C:maj/5", 5, G), -5, G)).toBe("C:maj/5");
  });

  it("lies above another as their names say, else as their homes do", () => {
    const at = (startSec: number, transposedSemitones: number) => ({ startSec, transposedSemitones });
    const keyAt = (timeSec: number) => (timeSec < 8 ? G : A);
    expect(movedBetween(at(0, 0), at(4, 3), keyAt)).toBe(3);
    expect(movedBetween(at(0, 0), at(8, 0), keyAt)).toBe(2);
    expect(movedBetween(at(8, 0), at(0, 0), keyAt)).toBe(-2);
    expect(movedBetween(at(0, -5), at(4, 6), keyAt)).toBe(-1);
    // Where home is covered it tells of no move; the names still do.
    const unseenLater = (timeSec: number) => (timeSec < 4 ? keyAt(timeSec) : null);
    expect(movedBetween(at(0, 0), at(8, 0), unseenLater)).toBe(0);
    expect(movedBetween(at(0, 0), at(8, 3), unseenLater)).toBe(3);
  });
});
