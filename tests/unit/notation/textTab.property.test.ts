import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import { fretOn, settleFrets } from "@/lib/instrument/frets";
import { type BeatGrid, beatToInBar, beatToSeconds, gridBars } from "@/lib/notation/barGrid";
import type { Articulation, PartEvent } from "@/lib/notation/PartEvent";
import { TECHNIQUES } from "@/lib/notation/Technique";
import { textTab } from "@/lib/notation/textTab";
import { BANJO, GUITAR } from "../../fixtures/fretted/necks";
import { type ReadSign, readTab, splitSystems } from "./readTab";

const CHANGE_SETS = [[], ["A"], ["A", "B"], ["B", "C"], ["A", "F"], ["B", "E"], ["D"], ["A", "B", "V", "DD"]];
const ARTICULATIONS: Articulation[] = [
  "pick",
  "pick",
  "pick",
  "slide",
  "press",
  "release",
  "slidePress",
  "tie",
];
const LABELS = ["G:maj", "C:maj/3", "D:7", "A:min7", "N", "F:hdim7/b3"];

interface Written {
  copedent: Copedent;
  grid: BeatGrid;
  /** Beat of the grid, its cut (4 or 3), place in the cut. */
  events: { beat: number; cut: number; event: PartEvent }[];
  changes: { startSec: number; endSec: number; label: string }[];
}

/** Parts whose onsets lie on quarters or thirds of beats, each beat one or the other, under changing metres. */
const writtenArbitrary: fc.Arbitrary<Written> = fc
  .record({
    metres: fc.array(fc.constantFrom(2, 3, 4, 4, 4, 6), { minLength: 2, maxLength: 8 }),
    pickup: fc.integer({ min: 0, max: 1 }),
    cuts: fc.array(fc.constantFrom(4, 4, 3), { minLength: 48, maxLength: 48 }),
    onsets: fc.array(
      fc.record({
        beat: fc.nat(46),
        place: fc.nat(3),
        strings: fc.uniqueArray(fc.integer({ min: 1, max: 10 }), { minLength: 1, maxLength: 3 }),
        fret: fc.oneof(fc.integer({ min: 0, max: 24 }), fc.constant(3.5)),
        changes: fc.constantFrom(...CHANGE_SETS),
        /** How far each further string lies from the first; 0 three times of five, under a straight bar. */
        slope: fc.constantFrom(0, 0, 0, 1, -1),
        articulation: fc.constantFrom(...ARTICULATIONS),
        techniques: fc.oneof(fc.constant([]), fc.subarray([...TECHNIQUES])),
        lengthBeats: fc.double({ min: 0.02, max: 9, noNaN: true }),
      }),
      { minLength: 1, maxLength: 30 },
    ),
    copedent: fc.constantFrom(E9, E9, GUITAR, BANJO),
    labels: fc.array(fc.tuple(fc.nat(40), fc.constantFrom(...LABELS)), { maxLength: 8 }),
  })
  .map(({ metres, pickup, cuts, onsets, labels, copedent }) => {
    const inBar = metres
      .flatMap((metre) => Array.from({ length: metre }, (_, index) => index + 1))
      .slice(pickup);
    const grid = { beatsSec: inBar.map((_, index) => 1 + index * 0.55), inBar, beatsPerBar: 4 };
    const taken = new Set<string>();
    const events = onsets.flatMap((onset, index) => {
      const beat = onset.beat % inBar.length;
      const cut = cuts[beat] ?? 4;
      const place = onset.place % cut;
      const strings = onset.strings
        .filter((string) => string <= copedent.strings.length && !taken.has(`${beat} ${place} ${string}`))
        .sort((a, b) => a - b);
      const lowest = Math.min(onset.fret, ...strings.map((_, nth) => onset.fret + onset.slope * nth));
      // One bar has one slant, and none over open strings; fingers go anywhere.
      const isSlanted = onset.slope !== 0 && strings.length > 1;
      const isFree =
        copedent.stoppedBy === "fingers" ? lowest >= 0 : lowest >= 1 && !taken.has(`${beat} ${place}`);
      const slope = isSlanted && isFree ? onset.slope : 0;
      if (slope !== 0) taken.add(`${beat} ${place}`);
      for (const string of strings) taken.add(`${beat} ${place} ${string}`);
      const at = beat + place / cut;
      const event: PartEvent = {
        id: String(index),
        startSec: beatToSeconds(grid, at),
        endSec: beatToSeconds(grid, at + onset.lengthBeats),
        strings,
        ...settleFrets(strings.map((_, nth) => onset.fret + slope * nth)),
        changes: copedent === E9 ? [...onset.changes] : [],
        articulation: onset.articulation,
        techniques: onset.techniques,
      };
      return strings.length === 0 ? [] : [{ beat, cut, event }];
    });
    const sorted = [...labels].sort(([a], [b]) => a - b);
    const changes = sorted.flatMap(([beat, label], index) => {
      const end = sorted[index + 1]?.[0] ?? inBar.length;
      if (end <= beat) return [];
      return [{ startSec: beatToSeconds(grid, beat), endSec: beatToSeconds(grid, end), label }];
    });
    return { copedent, grid, events, changes };
  });

const write = ({ copedent, grid, events, changes }: Written, widthColumns?: number) =>
  textTab({
    title: "Round trip",
    copedent,
    key: { tonic: "G", mode: "major" },
    grid,
    changes,
    part: events.map(({ event }) => event),
    widthColumns,
  });

const SIGN_OF = { pick: "", slide: "/", slidePress: "/", press: ">", release: ">", tie: "(" } as const;

const letters = (changes: string[]) =>
  ["A", "B", "C", "F", "E", "V", "D", "DD"].filter((id) => changes.includes(id)).join("");

function expected({ copedent, grid, events }: Written): ReadSign[] {
  const bars = gridBars(grid);
  const inOrder = [...events].sort((a, b) => a.event.startSec - b.event.startSec);
  return inOrder.flatMap(({ beat, event }, index) =>
    event.strings.map((string): ReadSign => {
      const bar = bars.find(({ startBeat, endBeat }) => startBeat <= beat && beat < endBeat);
      const before = inOrder.slice(0, index).findLast((other) => other.event.strings.includes(string));
      const [fret, from] = [fretOn(event, string), before ? fretOn(before.event, string) : 0];
      const down = before !== undefined && (fret < from || (fret === from && event.fret < before.event.fret));
      const sign = SIGN_OF[event.articulation];
      const techniques = event.techniques?.map((each) => ({ harmonic: "*", vibrato: "~", block: "'" })[each]);
      const exact = beatToInBar(grid, beat) + (event.startSec - beatToSeconds(grid, beat)) / 0.55;
      return {
        bar: bar?.number ?? Number.NaN,
        beat: exact,
        string,
        sign: sign === "/" && down ? "\\" : sign,
        fret,
        slant: copedent.stoppedBy === "bar" ? (event.frets ?? null) : null,
        changes: letters(event.changes),
        techniques: techniques?.join("") ?? "",
        opens: false,
      };
    }),
  );
}

/** Without the brackets at the beginning of lines, which mean the same whether something is tied there or held over. */
function withoutOpening(read: ReadSign[], want: ReadSign[]): { read: ReadSign[]; want: ReadSign[] } {
  const opening = read.filter(({ opens }) => opens);
  const isOpening = ({ bar, beat, string, sign }: ReadSign) =>
    sign === "(" &&
    opening.some((each) => each.bar === bar && each.string === string && Math.abs(each.beat - beat) < 1e-6);
  return {
    read: read.filter(({ opens }) => !opens).sort(byPlace),
    want: want.filter((each) => !isOpening(each)).sort(byPlace),
  };
}

const byPlace = (a: ReadSign, b: ReadSign) => a.bar - b.bar || a.beat - b.beat || a.string - b.string;

describe("a text tab", () => {
  it("reads back as what was written: bar, beat, string, mark, fret and changes", () => {
    fc.assert(
      fc.property(writtenArbitrary, (written) => {
        const { read, want } = withoutOpening(readTab(write(written)), expected(written));
        expect(read.map(({ beat, ...rest }) => rest)).toEqual(want.map(({ beat, ...rest }) => rest));
        for (const [index, sign] of read.entries()) expect(sign.beat).toBeCloseTo(want[index]!.beat, 6);
      }),
      { numRuns: 150 },
    );
  });

  it("is printable ASCII, has lines of one length in a system and none too long but a lone bar", () => {
    fc.assert(
      fc.property(writtenArbitrary, fc.integer({ min: 40, max: 100 }), (written, width) => {
        const tab = write(written, width);
        expect(tab).toMatch(/^[ -~\n]*$/);
        const systems = splitSystems(tab);
        for (const system of systems) {
          expect(new Set(system.map((line) => line.length)).size).toBe(1);
          const bars = (system.find((line) => line.includes("beat|"))!.match(/\|/g) ?? []).length - 1;
          if (bars > 1) expect(system[0]!.length).toBeLessThanOrEqual(width);
        }
        const drawn = new Set(systems.flat());
        for (const line of tab.split("\n").filter((line) => !drawn.has(line))) {
          expect(line.length).toBeLessThanOrEqual(width);
        }
      }),
      { numRuns: 100 },
    );
  });

  it("keeps the order of a string's events however near they lie, with and without a grid", () => {
    const near = fc.array(fc.double({ min: 0, max: 6, noNaN: true }), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(near, fc.boolean(), (times, hasGrid) => {
        const starts = [...new Set(times)].sort((a, b) => a - b);
        const part = starts.map(
          (startSec, index): PartEvent => ({
            id: String(index),
            startSec,
            endSec: starts[index + 1] ?? startSec + 0.2,
            strings: [5],
            fret: index % 25,
            changes: [],
            articulation: "pick",
          }),
        );
        const beatsSec = [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5];
        const grid = hasGrid ? { beatsSec, inBar: [1, 2, 3, 4, 1, 2, 3, 4], beatsPerBar: 4 } : null;
        const tab = textTab({ title: "Near", copedent: E9, key: null, grid, changes: [], part });
        const line = splitSystems(tab)
          .map((system) => system.find((text) => text.startsWith(" 5 "))!.slice(6))
          .join("");
        const frets = [...line.replace(/\([^)]*\)/g, "").matchAll(/\d+/g)].map((match) => Number(match[0]));
        expect(frets).toEqual(part.map((event) => event.fret));
      }),
      { numRuns: 60 },
    );
  });
});
