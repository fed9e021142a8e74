import { describe, expect, it } from "vitest";
import { makeSongGrid } from "@/lib/client/axis/songGrid";
import {
  barRepeats,
  barsWords,
  movedWords,
  sectionName,
  sectionRepeats,
} from "@/lib/client/song/sectionWords";

/** Twelve bars of four, half a second a beat, from time 0. */
const BEATS = Array.from({ length: 48 }, (_, index) => index / 2);
const GRID = makeSongGrid(
  { beatsSec: BEATS, inBar: BEATS.map((_, index) => (index % 4) + 1), beatsPerBar: 4 },
  24,
)!;
const section = (fromBar: number, toBar: number, label: string, transposedSemitones = 0, offSec = 0) => ({
  id: `${label} at ${fromBar}`,
  startSec: (fromBar - 1) * 2 + offSec,
  writtenStartSec: (fromBar - 1) * 2 + offSec,
  endSec: toBar * 2 + offSec,
  label,
  transposedSemitones,
});
const SECTIONS = [section(1, 4, "A"), section(5, 6, "B"), section(7, 10, "A", 1), section(11, 12, "A", -2)];

describe("sections in words", () => {
  it("have a letter, and how far they are moved", () => {
    expect(SECTIONS.map(sectionName)).toEqual(["A", "B", "A up 1", "A down 2"]);
    expect([0, 1, -1, 2, 5, -3].map(movedWords)).toEqual([
      "",
      "a half step up",
      "a half step down",
      "a whole step up",
      "5 half steps up",
      "3 half steps down",
    ]);
  });

  it("say what they repeat, and where the first comes again", () => {
    const words = SECTIONS.map((each) => sectionRepeats(SECTIONS, each, GRID));
    expect(words).toEqual([
      "Comes again at bar 7 (a half step up) and bar 11 (a whole step down).",
      null,
      "Bars 1 to 4 again, a half step up.",
      "Bars 1 to 4 again, a whole step down.",
    ]);
  });

  it("do not take what is left of one section around another for a repeat", () => {
    const whole = section(1, 10, "A");
    const around = [
      { ...whole, endSec: 4 },
      section(3, 4, "Turnaround"),
      { ...whole, startSec: 8 },
      section(11, 12, "A"),
    ];
    expect(around.map((each) => sectionRepeats(around, each, GRID))).toEqual([
      "Comes again at bar 11.",
      null,
      "Comes again at bar 11.",
      "Bars 1 to 2 again.",
    ]);
    expect(barRepeats(around, 9, GRID)).toBeNull();
    expect(barRepeats(around, 22, GRID)).toBe("Bar 12 is bar 2 again.");
  });

  it("count by time where no beats are known", () => {
    expect(sectionRepeats(SECTIONS, SECTIONS[2]!, null)).toBe("0:00 to 0:08 again, a half step up.");
  });

  it("take the nearest bar line for ends that lie off it", () => {
    expect(barsWords(section(3, 5, "C", 0, -0.7), GRID)).toBe("Bars 3 to 5");
    expect(barsWords(section(3, 5, "C", 0, 0.6), GRID)).toBe("Bars 3 to 5");
    expect(barsWords(section(12, 12, "C", 0, 0.1), GRID)).toBe("Bar 12");
  });
});

describe("a bar that comes again", () => {
  it("is named by the bar that it repeats", () => {
    expect(barRepeats(SECTIONS, 14.1, GRID)).toBe("Bar 8 is bar 2 again, a half step up.");
    expect(barRepeats(SECTIONS, 20, GRID)).toBe("Bar 11 is bar 1 again, a whole step down.");
  });

  it("is not named where it is the first, stands alone, or goes on past the first", () => {
    expect(barRepeats(SECTIONS, 2, GRID)).toBeNull();
    expect(barRepeats(SECTIONS, 9, GRID)).toBeNull();
    const longer = [section(1, 2, "A"), section(3, 6, "A")];
    expect(barRepeats(longer, 6, GRID)).toBe("Bar 4 is bar 2 again.");
    expect(barRepeats(longer, 8, GRID)).toBeNull();
    expect(barRepeats(longer, 6, null)).toBeNull();
  });
});
