import { describe, expect, it } from "vitest";
import { changeText, noteNumber, numberAndName } from "@/app/songs/[songId]/parts/changeWords";
import { homeAt, isHomeUnseen, keyAt, numberKeyAt } from "@/app/songs/[songId]/parts/selection";
import { typedChord } from "@/lib/client/song/typedChord";
import { UnseenHomeError } from "@/lib/client/song/typedNumbers";
import { typedPitchClass } from "@/lib/client/song/typedPitch";
import { typedRun } from "@/lib/client/song/typedRun";
import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import type { HomeRecord } from "@/lib/document/records/records";
import { E9 } from "@/lib/instrument/copedents/e9";
import { textTab } from "@/lib/notation/textTab";
import type { Key } from "@/lib/theory/key";

const G: Key = { tonic: "G", mode: "major" };

function home(startSec: number, tonic: string): HomeRecord {
  const stamp = { madeBy: "ann", madeAtMs: 0, editedBy: "ann", editedAtMs: 0 };
  return { ...stamp, id: tonic, mark: "ink", confidence: null, startSec, tonic, mode: "major", guesses: [] };
}

describe("where home is covered, letters stand for numbers", () => {
  const song = { homes: [home(0, "G"), home(20, "A")], unseenHome: [{ startSec: 10, endSec: 20 }] };

  it("home is not seen there, neither the one before nor the next; and is where it is not covered", () => {
    expect(homeAt(song, 15)).toBeNull();
    expect(isHomeUnseen(song, 15)).toBe(true);
    expect([0, 9, 20, 30].map((sec) => homeAt(song, sec)?.tonic)).toEqual(["G", "G", "A", "A"]);
    expect(numberKeyAt(song, 15)).toBeNull();
    // Lanes are drawn from a little before the record.
    expect(isHomeUnseen({ homes: [], unseenHome: [{ startSec: 0, endSec: 4 }] }, -0.5)).toBe(true);
    expect(numberKeyAt(song, 5)).toEqual(G);
    // Notes are still spelled.
    expect(keyAt(song, 15)).toEqual({ tonic: "C", mode: "major" });
    // Where home was not heard so far, numbers count from C as before.
    expect(numberKeyAt({ homes: [] }, 15)).toEqual({ tonic: "C", mode: "major" });
  });

  it.each([
    ["D:7", "D", "7"],
    ["A:min7", "A", "m7"],
    ["Bb:maj/3", "B♭", "/D"],
    ["F#:dim", "F♯", "dim"],
    ["N", "N.C.", ""],
  ])("the change %s reads %s%s", (label, degree, rest) => {
    expect(changeText(label, null)).toEqual({ degree, rest, letters: "" });
  });

  it("notes read by their names, spelled by the chord that is seen there", () => {
    const change = (startSec: number, label: string) =>
      ({ startSec, endSec: startSec + 2, label }) as ShownChange;
    const covered = { ...song, changes: [change(11, "A:7"), change(13, "Bb:min"), change(15, "N")] };
    expect(noteNumber(62, song, 5)).toBe("5");
    expect(noteNumber(62, song, 15)).toBe("D");
    expect([11, 13, 15, 18].map((sec) => noteNumber(61, covered, sec))).toEqual(["C♯", "D♭", "D♭", "D♭"]);
    expect(numberAndName(62, song, 5)).toBe("5 D4");
    expect(numberAndName(61, covered, 12)).toBe("C♯4");
  });

  it("numbers that are typed are refused in words, letters are read", () => {
    expect(typedChord("Am7", null)).toBe("A:min7");
    expect(typedChord("D:7/b7", null)).toBe("D:7/b7");
    expect(typedChord("N", null)).toBe("N");
    for (const typed of ["4", "2-", "b7", "1/3"])
      expect(() => typedChord(typed, null)).toThrow("Home is not seen here");
    expect(typedPitchClass("D", null)).toBe(2);
    expect(() => typedPitchClass("5", null)).toThrow(UnseenHomeError);
    const grid = {
      beatsSec: Array.from({ length: 40 }, (_, beat) => beat / 2),
      inBar: Array.from({ length: 40 }, (_, beat) => (beat % 4) + 1),
      beatsPerBar: 4,
    };
    const at = { grid, fromSec: 8, durationSec: 20, keyAt: (sec: number) => numberKeyAt(song, sec) };
    expect(typedRun("1", at).changes.map(({ label }) => label)).toEqual(["G:maj"]);
    expect(() => typedRun("1 4", at)).toThrow("Home is not seen here");
    expect(typedRun("1 C", at).changes.map(({ label }) => label)).toEqual(["G:maj", "C:maj"]);
  });

  it("a tab says that home is covered, and has letters", () => {
    const part = [
      { id: "a", startSec: 1, endSec: 2, strings: [5], fret: 3, changes: [], articulation: "pick" as const },
    ];
    const changes = [{ startSec: 0, endSec: 4, label: "D:7" }];
    const tab = textTab({
      title: "Fill",
      copedent: E9,
      key: null,
      isHomeKept: true,
      grid: null,
      changes,
      part,
    });
    expect(tab).toContain("home covered");
    expect(tab).toContain("D7");
  });
});
