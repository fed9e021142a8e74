import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isRun, typedRun } from "@/lib/client/song/typedRun";
import type { BeatGrid } from "@/lib/notation/barGrid";
import { setMeter } from "@/lib/notation/beats/meter";
import { numberChart } from "@/lib/notation/chart";
import { layRun } from "@/lib/notation/runs/layRun";
import { MOST_BARS, parseRun, RunError } from "@/lib/notation/runs/parseRun";
import type { Key } from "@/lib/theory/key";
import { gridOf } from "../beats/anyGrid";

const G: Key = { tonic: "G", mode: "major" };
/** Bars of two seconds. */
const GRID = gridOf(4, 4, 4, 4, 4, 4, 4, 4);

/** What is typed, bar by bar, as short as a test can read it. */
const read = (text: string) =>
  parseRun(text).map((bar) =>
    bar
      .map(({ chord, beats, isPushed }) => {
        const name = typeof chord === "object" ? chord.text : chord;
        return `${name}${beats === null ? "" : `:${beats}`}${isPushed ? "^" : ""}`;
      })
      .join(" "),
  );
const laid = (text: string, fromSec = 0, grid: BeatGrid = GRID, durationSec = 16) =>
  layRun(parseRun(text), grid, fromSec, durationSec).shares.map(({ text: chord, startSec, endSec }) => [
    chord,
    startSec,
    endSec,
  ]);
const typed = (text: string, fromSec = 0, keyAt = (_: number): Key => G) =>
  typedRun(text, { grid: GRID, fromSec, durationSec: 16, keyAt }).changes.map(
    ({ startSec, endSec, label }) => [label, startSec, endSec],
  );

// Signs of number charts: doczz.net/doc/2569692 (J. Riley); `.`, `%`, `_` and `x3` are common practice, no source.
describe("a typed run", () => {
  it.each([
    ["1 4 1/3 5 6-", ["1", "4", "1/3", "5", "6-"]],
    ["G, Am7 D7(b9) | ", ["G Am7 D7(b9)"]],
    ["G Am7 D7(b9)/F#", ["G", "Am7", "D7(b9)/F#"]],
    ["1 . (4 5) %", ["1", "held", "4 5", "4 5"]],
    ["(1... 5.) (1 .. 4)", ["1:3 5:1", "1 held:2 4"]],
    ["1 _ N N.C. 4^", ["1", "blank", "N", "N.C.", "4^"]],
    ["1 x3 4", ["1", "1", "1", "4"]],
    ["|: 1 4 :| 5", ["1", "4", "1", "4", "5"]],
    ["|: 1 4 :| x3", ["1", "4", "1", "4", "1", "4"]],
    ["| 1 | 4 5 | . | % |", ["1", "4 5", "held", "held"]],
    ["| 1... 5. | (4 5) x2", ["1:3 5:1", "4 5", "4 5"]],
    ["[2/4: 5] [3/4: (1.. 4.)]", ["5", "1:2 4:1"]],
    ["", []],
  ])("reads %s", (text, bars) => {
    expect(read(text)).toEqual(bars);
  });

  it.each(["(1 4", "1)", "()", "%", "x2", "1 x0", "1... 4", "((1)", "|: x3"])(
    "says that %s cannot be read",
    (text) => {
      expect(() => parseRun(text)).toThrow(RunError);
    },
  );

  it("ends, whatever is typed, in bars or in words", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(..."147-/b#.%_N()[]|:x3^ ,") }), (text) => {
        try {
          expect(parseRun(text).length).toBeLessThanOrEqual(MOST_BARS);
        } catch (thrown) {
          expect(thrown).toBeInstanceOf(RunError);
        }
      }),
    );
  });

  it("is told from one chord by what follows it", () => {
    expect(["4", "57(b9)", "G/B", " 4", "4 ", "1 4", "(1 4", "| 1"].map(isRun)).toEqual([
      false,
      false,
      false,
      false,
      true,
      true,
      true,
      true,
    ]);
  });
});

describe("a run on its bars", () => {
  it("falls on the bar in which it begins and the ones after", () => {
    expect(laid("1 4 . 5", 2.7)).toEqual([
      ["1", 2, 4],
      ["4", 4, 8],
      ["5", 8, 10],
    ]);
  });

  it("shares a bar out evenly, or by dots", () => {
    expect(laid("(1 4) (1... 5.) (1 . 4)", 0, gridOf(4, 4, 3, 4))).toEqual([
      ["1", 0, 1],
      ["4", 1, 2],
      ["1", 2, 3.5],
      ["5", 3.5, 4],
      ["1", 4, 5],
      ["4", 5, 5.5],
    ]);
  });

  it("brings a pushed change half a beat early", () => {
    expect(laid("1 4^")).toEqual([
      ["1", 0, 1.75],
      ["4", 1.75, 4],
    ]);
  });

  it("leaves blanks alone", () => {
    expect(laid("1 _ 4 (_ 5)")).toEqual([
      ["1", 0, 2],
      ["4", 4, 6],
      ["5", 7, 8],
    ]);
  });

  it("follows the metre of each bar", () => {
    expect(laid("1 4 5", 0, setMeter(GRID, 4, 3, "bar"))).toEqual([
      ["1", 0, 2],
      ["4", 2, 3.5],
      ["5", 3.5, 5.5],
    ]);
  });

  it("says what does not fit", () => {
    expect(() => laid("(1... 5...)")).toThrow("Bar 1 has 4 beats, but 6 are counted by dots.");
    expect(() => laid("(1. 5.)")).toThrow(RunError);
    expect(() => laid("(1.... 5)")).toThrow(RunError);
    const run = layRun(parseRun("1 x10"), GRID, 4, 16);
    expect(run).toMatchObject({ fromBar: 3, toBar: 8, leftOver: 4 });
  });

  it("gives shares in order, without overlap, within the record", () => {
    const share = fc.constantFrom("1", "4", "5-", ".", "_", "2^");
    const bar = fc.array(share, { minLength: 1, maxLength: 4 }).map((shares) => `(${shares.join(" ")})`);
    fc.assert(
      fc.property(
        fc.array(bar, { minLength: 1, maxLength: 12 }),
        fc.double({ min: 0, max: 15, noNaN: true }),
        (bars, fromSec) => {
          let untilSec = 0;
          for (const [, startSec, endSec] of laid(bars.join(" "), fromSec) as [string, number, number][]) {
            expect(startSec).toBeGreaterThanOrEqual(untilSec - 1e-9);
            expect(endSec).toBeGreaterThan(startSec);
            untilSec = endSec;
          }
          expect(untilSec).toBeLessThanOrEqual(16);
        },
      ),
    );
  });
});

describe("a run as changes of the song", () => {
  it("is read in the home of the moment, and one chord is one change", () => {
    expect(typed("1 1 4 57")).toEqual([
      ["G:maj", 0, 4],
      ["C:maj", 4, 6],
      ["D:7", 6, 8],
    ]);
    const moves = (timeSec: number): Key => (timeSec < 4 ? G : { tonic: "A", mode: "major" });
    expect(typed("1 5 1 5", 0, moves).map(([label]) => label)).toEqual(["G:maj", "D:maj", "A:maj", "E:maj"]);
  });

  it("reads back what a number chart writes", () => {
    const changes = typed("1 (4 5) (1... 5.) 4^ 6-").map(([label, startSec, endSec]) => ({
      label: label as string,
      startSec: startSec as number,
      endSec: endSec as number,
    }));
    const chart = numberChart({ title: "Song", key: G, grid: GRID, changes });
    const lines = chart.split("\n").flatMap((line) => /^bar +\d+: +(.*)$/.exec(line)?.[1] ?? []);
    const back = typed(lines.join(" "));
    expect(back).toEqual(changes.map(({ label, startSec, endSec }) => [label, startSec, endSec]));
  });

  it("says what cannot be read", () => {
    expect(() => typed("1 9")).toThrow('"9" is no chord here');
    expect(() => typed(" ")).toThrow("Type changes");
    expect(() => typedRun("1 4", { grid: null, fromSec: 0, durationSec: 9, keyAt: () => G })).toThrow(
      "beats",
    );
  });
});
