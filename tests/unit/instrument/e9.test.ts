import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { parseHarte } from "@/lib/theory/harte";
import { midiToName, parsePitchName } from "@/lib/theory/spelling";
import { midiToHertz, midiToPitchClass } from "@/lib/units/pitch";
import chordFunctions from "../../fixtures/steel/chordFunctions.json";
import fretsByKey from "../../fixtures/steel/fretsByKey.json";
import scales from "../../fixtures/steel/harmonisedScales.json";
import openStrings from "../../fixtures/steel/openStrings.json";
import pairs from "../../fixtures/steel/pairIntervals.json";
import positions from "../../fixtures/steel/positions.json";

/** The sources stand beside the figures in tests/fixtures/steel. */
const sound = (string: number, fret: number, changes: readonly string[]): number => {
  const midi = effectiveMidi(E9, string, fret, changes);
  if (midi === null) throw new Error(`string ${string} gives no pitch under ${changes.join("")}`);
  return midi;
};
const pitchClasses = (strings: readonly number[], fret: number, changes: readonly string[]) =>
  [...new Set(strings.map((string) => midiToPitchClass(sound(string, fret, changes))))].sort((a, b) => a - b);

describe("E9 as data", () => {
  it.each(openStrings.strings)(
    "string $string is $open",
    ({ string, open, midi, openHz, twelfthFret, fret24Hz }) => {
      expect(sound(string, 0, [])).toBe(midi);
      expect(midiToName(midi, { tonic: "E", mode: "major" })).toBe(open);
      expect(midiToHertz(midi)).toBeCloseTo(openHz, 1);
      expect(sound(string, 12, [])).toBe(parsePitchName(twelfthFret).midi);
      expect(Math.abs(midiToHertz(sound(string, 24, [])) - fret24Hz)).toBeLessThanOrEqual(0.5);
    },
  );

  it.each(chordFunctions)(
    "$engaged on $strings at fret $fret is $chord",
    ({ engaged, strings, fret, chord }) => {
      expect(pitchClasses(strings, fret, engaged)).toEqual(parseHarte(chord)?.pitchClasses);
    },
  );

  it.each(positions)("$what ($source)", ({ cells }) => {
    for (const { string, fret, changes, note } of cells) {
      expect(sound(string, fret, changes)).toBe(parsePitchName(note).midi);
    }
  });

  it.each(fretsByKey.columns)("$position lies at the printed fret in all twelve keys", (column) => {
    for (const [key, fret] of Object.entries(column.fretByKey)) {
      const root = midiToName(parsePitchName(key).pitchClass + column.rootAboveKey).replace(/-?\d+$/, "");
      const chord = parseHarte(`${root}:${column.chord}`);
      expect(pitchClasses(column.strings, fret, column.changes)).toEqual(chord?.pitchClasses);
    }
    expect(Object.keys(column.fretByKey)).toHaveLength(12);
  });

  it.each(pairs.pairs)("strings $strings stand at the printed intervals", ({ strings, semitones }) => {
    const [one = 0, other = 0] = strings;
    for (const [engaged, distance] of Object.entries(semitones)) {
      const changes = engaged === "open" ? [] : engaged.replaceAll("+", "").split("");
      expect(Math.abs(sound(one, 5, changes) - sound(other, 5, changes))).toBe(distance);
    }
  });

  it.each(scales.scales)("harmonises the major scale in $kind on strings $strings", ({ strings, cells }) => {
    checkScale(
      strings,
      cells.map((cell) => ({ ...cell, fret: cell.fretsAboveHome })),
      4,
    );
  });

  it.each(scales.inG)("harmonises the scale of G on strings $strings", ({ strings, cells }) => {
    checkScale(strings, cells, 7);
  });
});

interface Cell {
  low: number;
  high: number;
  fret: number;
  changes: string[];
}

/** Every cell gives the two degrees that it names, and the cells rise. */
function checkScale(strings: number[], cells: Cell[], tonic: number): void {
  const degrees = [0, 2, 4, 5, 7, 9, 11];
  let last = 0;
  for (const { low, high, fret, changes } of cells) {
    const [lower = 0, upper = 0] = strings
      .map((string) => sound(string, fret, changes))
      .sort((a, b) => a - b);
    expect(midiToPitchClass(lower - tonic)).toBe(degrees[low - 1]);
    expect(midiToPitchClass(upper - tonic)).toBe(degrees[high - 1]);
    expect(lower).toBeGreaterThan(last);
    last = lower;
  }
}
