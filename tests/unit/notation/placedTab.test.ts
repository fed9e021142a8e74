import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import type { PartEvent } from "@/lib/notation/PartEvent";
import { textTab } from "@/lib/notation/textTab";
import { placeSequence } from "@/lib/places/placeSequence";
import { BANJO, GUITAR, LAP_C6, MANDOLIN } from "../../fixtures/fretted/necks";
import { readTab } from "./readTab";

const grid = {
  beatsSec: Array.from({ length: 16 }, (_, index) => index * 0.5),
  inBar: Array.from({ length: 16 }, (_, index) => (index % 4) + 1),
  beatsPerBar: 4,
};

/** What a part sounds is written as notes, placed, printed, read back from the columns alone and sounded again. */
function roundTrip(copedent: Copedent, notes: readonly number[][], slants = false): number[][] {
  const events = notes.map((notesMidi, at) => ({ startSec: at / 2, endSec: (at + 1) / 2, notesMidi }));
  const placed = placeSequence(copedent, events, { slants, ...(slants && { locks: { grip: [2, 3, 5] } }) });
  const part = placed.events.map(({ startSec, candidates, chosenIndex }, at): PartEvent => {
    const { fret, frets, strings, changes } = candidates[chosenIndex!]!;
    return {
      ...{ id: String(at), startSec, endSec: startSec + 0.5, articulation: "pick" },
      ...{ fret, frets: frets ? [...frets] : null, strings: [...strings], changes: [...changes] },
    };
  });
  const tab = textTab({ title: "Round trip", copedent, key: null, grid, changes: [], part });
  const read = readTab(tab);
  return notes.map((_, at) => {
    const here = read.filter(({ bar, beat }) => (bar - 1) * 4 + beat - 1 === at);
    const strings = here.map(({ string }) => string);
    const frets = here.map(({ fret }) => fret);
    const midis = stoppedPitches(copedent, { fret: 0, frets, strings, changes: [] }) as number[];
    return midis.sort((a, b) => a - b);
  });
}

describe("a placed part, printed and read back", () => {
  // Chords and lines of our own.
  const line = [[60], [62], [64, 67], [55, 59, 62], [48, 52, 55, 60, 64], [65], [69, 72]];
  it.each([
    ["guitar", GUITAR, line],
    ["banjo", BANJO, [[62], [64], [67, 71], [50, 55, 59, 62, 67], [69], [74]]],
    ["mandolin", MANDOLIN, [[62], [69], [76, 67], [55, 62, 71, 79], [81]]],
  ] as const)("sounds the same on the %s", (_, copedent, notes) => {
    const wanted = notes.map((each) => [...each].sort((a, b) => a - b));
    expect(
      roundTrip(
        copedent,
        notes.map((each) => [...each]),
      ),
    ).toEqual(wanted);
  });

  it("sounds the same under a slanted bar", () => {
    const thirds = [
      [62, 65],
      [64, 67],
      [65, 69],
      [67, 70],
      [56, 65],
    ];
    expect(roundTrip(LAP_C6, thirds, true)).toEqual(thirds);
  });
});
