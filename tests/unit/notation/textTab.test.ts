import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import { settleFrets } from "@/lib/instrument/frets";
import type { BeatGrid } from "@/lib/notation/barGrid";
import type { Articulation, PartEvent } from "@/lib/notation/PartEvent";
import { textTab } from "@/lib/notation/textTab";
import { GUITAR, LAP_C6 } from "../../fixtures/fretted/necks";
import { splitSystems } from "./readTab";

/** Four bars of four at 120 beats a minute after one beat of pickup. */
const grid: BeatGrid = {
  beatsSec: Array.from({ length: 17 }, (_, index) => index * 0.5),
  inBar: Array.from({ length: 17 }, (_, index) => ((index + 3) % 4) + 1),
  beatsPerBar: 4,
};

function event(
  bar: number,
  beat: number,
  beats: number,
  strings: number[],
  place: string,
  articulation: Articulation = "pick",
): PartEvent {
  const startSec = ((bar - 1) * 4 + beat) * 0.5;
  const fret = Number(/^\d+/.exec(place)?.[0]);
  const changes = place.match(/[A-Z]/g) ?? [];
  return {
    id: `${bar}.${beat}`,
    startSec,
    endSec: startSec + beats * 0.5,
    strings,
    fret,
    changes,
    articulation,
  };
}

const tabOf = (part: PartEvent[], more: Partial<Parameters<typeof textTab>[0]> = {}) =>
  textTab({
    title: "Test",
    copedent: E9,
    key: { tonic: "G", mode: "major" },
    grid,
    changes: [],
    part,
    ...more,
  });

const stringLine = (tab: string, string: number, system = 0) =>
  splitSystems(tab)[system]?.find((line) => line.startsWith(String(string).padStart(2)));

describe("the lines of a text tab", () => {
  it("name the ten strings, string 1 on top", () => {
    // b0b.com/wp/copedents/understanding-e9th (B. Lee), guitarlicks.net pedal-steel-guitar-basics
    const names = splitSystems(tabOf([event(1, 1, 1, [5], "3")]))[0]
      ?.filter((line) => /^[ \d]\d /.test(line))
      .map((line) => line.slice(0, 5).trim());
    expect(names).toEqual(["1 F#", "2 D#", "3 G#", "4 E", "5 B", "6 G#", "7 F#", "8 E", "9 D", "10 B"]);
  });

  it("write pick, press, release and slide apart", () => {
    const tab = tabOf([
      event(1, 1, 1, [5], "3"),
      event(1, 2, 1, [5], "3A", "press"),
      event(1, 3, 0.5, [5], "3", "release"),
      event(1, 3.5, 0.5, [5], "5", "slide"),
      event(1, 4, 0.5, [5], "3A", "slidePress"),
    ]);
    expect(stringLine(tab, 5)).toBe(" 5 B  |3===>3A=>3/5\\3A-|");
  });

  it("hold a note over bar lines and show it again, in brackets, on the next line", () => {
    const tab = tabOf([event(1, 1, 14, [4], "10AB")], { widthColumns: 44 });
    expect(stringLine(tab, 4, 0)).toBe(" 4 E  |10AB============|================|");
    expect(stringLine(tab, 4, 1)).toBe(" 4 E  |(10AB)==========|========--------|");
  });

  it("begin with the pickup as bar 0 and count its beat as the last of a bar", () => {
    const [bar, , ruler] = splitSystems(tabOf([event(0, 4, 1, [5], "1"), event(1, 1, 1, [5], "3")]))[0] ?? [];
    expect(bar).toMatch(/^ {3}bar 0 {4}1/);
    expect(ruler).toMatch(/^ {2}beat\|4\.&\.\|1\.&\.2\.&\.3\.&\.4\.&\.\|$/);
  });

  it("cut a beat in three where the notes lie on thirds", () => {
    const tab = tabOf([0, 1, 2].map((third) => event(1, 1 + third / 3, 1 / 3, [5], String(third + 1))));
    expect(splitSystems(tab)[0]?.find((line) => line.includes("beat|"))).toContain("|1 . . 2.&.");
    expect(stringLine(tab, 5)).toBe(" 5 B  |1=2=3=------------|");
  });

  it("write open strings as 0", () => {
    const tab = tabOf([event(1, 1, 1, [1], "0")]);
    expect(stringLine(tab, 1)).toContain("|0===");
    expect(tab).toContain("open string");
  });

  it("tell a long silence in words instead of drawing it", () => {
    const tab = tabOf([event(1, 1, 1, [5], "3"), event(9, 1, 1, [5], "3")]);
    expect(tab).toContain("\n\n(bars 2 to 8: no part)\n\n");
    expect(splitSystems(tab)).toHaveLength(2);
  });

  it("space by seconds without bar lines, and say so, where there is no grid", () => {
    const tab = tabOf([event(1, 1, 2, [5], "3"), event(2, 1, 1, [5], "5")], { grid: null });
    expect(tab).toContain("spaced by seconds, no bar lines");
    expect(stringLine(tab, 5)).toBe(" 5 B   --3===----5=");
    expect(tab).not.toContain("|");
  });

  it("put the numbers of the key above, each at its beat, again at the head of the next line", () => {
    const changes = [
      { startSec: 0.5, endSec: 2.5, label: "G:maj" },
      { startSec: 2.5, endSec: 3.5, label: "D:maj/3" },
      { startSec: 3.5, endSec: 9, label: "C:maj" },
    ];
    const tab = tabOf([event(1, 1, 15, [5], "3")], { changes, widthColumns: 44 });
    const lines = splitSystems(tab).map((system) => system.find((line) => line.startsWith("change")));
    expect(lines[0]?.trimEnd()).toBe("change 1                5/7     4");
    expect(lines[1]?.trimEnd()).toBe("change (4)");
    expect(tabOf([event(1, 1, 15, [5], "3")], { changes, key: null })).toMatch(/^change G +D\/F# +C/m);
  });

  it("say plainly that nothing is written yet", () => {
    expect(tabOf([])).toContain("No part is written yet.");
  });

  it("drop nothing unsaid: strings that the instrument lacks are counted", () => {
    const tab = tabOf([event(1, 1, 1, [5, 11], "3"), event(1, 2, 1, [12], "3"), event(1, 3, 1, [11], "3")]);
    expect(tab).toContain("Left out: 2 notes on string 11, which");
    expect(tab).toContain("Left out: one note on string 12");
  });

  it("bring names and titles into ASCII", () => {
    expect(tabOf([], { title: "Café — B♭ “waltz” 雨" })).toContain('Cafe - Bb "waltz" ?\n');
  });
});

describe("the legend", () => {
  it("says how to read a number with its kind, where there is one", () => {
    const part = [event(1, 1, 1, [5], "3")];
    const seventh = [{ startSec: 0.5, endSec: 2.5, label: "D:7" }];
    const plain = [{ startSec: 0.5, endSec: 2.5, label: "D:maj" }];
    const wide = { widthColumns: 120 };
    expect(tabOf(part, { ...wide, changes: seventh })).toContain("(57: the 5 with its seventh)\n");
    expect(tabOf(part, { ...wide, changes: plain })).toContain("as a number of the home key\n");
  });

  it("explains only the marks in use", () => {
    const plain = tabOf([event(1, 1, 1, [5], "3")]);
    expect(plain).toContain("\n3     pick");
    for (const mark of ["3AB", "3/5", "5\\3", "3>3A", "3A>3", "(3)", "0"]) {
      expect(plain).not.toContain(`\n${mark.padEnd(6)}`);
    }
    expect(plain).not.toContain("Pedals and levers:");
    const rich = tabOf([event(1, 1, 1, [5], "3A"), event(1, 2, 1, [5], "3", "release")]);
    for (const mark of ["3AB", "3A>3"]) expect(rich).toContain(`\n${mark.padEnd(6)}`);
    for (const mark of ["3/5", "5\\3", "3>3A"]) expect(rich).not.toContain(`\n${mark.padEnd(6)}`);
  });

  it("tells what the pedals and levers in use do, and no others", () => {
    // Pedals A and B: b0b.com (B. Lee); second stage of D: steelc6th.com (D. Stewart 2015)
    const tab = tabOf([
      event(1, 1, 1, [5, 6], "3AB"),
      { ...event(1, 2, 1, [2], "3"), changes: ["DD"] },
      { ...event(1, 3, 1, [2], "3"), changes: ["Q"] },
    ]);
    expect(tab).toContain("\nA: strings 5 and 10 up a whole step\n");
    expect(tab).toContain("\nB: strings 3 and 6 up a half step\n");
    expect(tab).toContain("\nDD: string 2 down a whole step, string 9 down a half step\n");
    expect(tab).toContain("\nQ: not on this instrument\n");
    expect(tab).not.toContain("\nC: ");
    expect(tab).not.toContain("\nD: ");
  });
});

describe("techniques and ties", () => {
  const played = (beat: number, more: Partial<PartEvent>) => ({ ...event(1, beat, 1, [5], "3A"), ...more });

  it("stand behind the place, and the legend explains those in use", () => {
    const tab = tabOf([
      played(1, { techniques: ["vibrato"] }),
      played(2, { techniques: ["block", "harmonic"] }),
      played(3, { techniques: ["block"], articulation: "press" }),
    ]);
    expect(stringLine(tab, 5)).toMatch(/\|3A~=*3A\*'-*>3A'-+/);
    for (const mark of ["3*", "3~", "3'"]) expect(tab).toContain(`\n${mark.padEnd(6)}`);
    const plain = tabOf([played(1, {})]);
    for (const mark of ["3*", "3~", "3'"]) expect(plain).not.toContain(`\n${mark.padEnd(6)}`);
  });

  it("a tie stands in brackets and is no pick; a block ends the ringing half way", () => {
    const tab = tabOf([event(1, 1, 2, [5], "3"), { ...event(1, 3, 2, [5], "3"), articulation: "tie" }]);
    expect(stringLine(tab, 5)).toMatch(/\|3={7}\(3\)={5}\|/);
    expect(tab).toContain("\n(3)   still holds");
    const rings = (techniques: PartEvent["techniques"]) =>
      stringLine(tabOf([{ ...event(1, 1, 4, [5], "3"), techniques }]), 5)?.match(/=/g)?.length;
    expect([rings([]), rings(["block"])]).toEqual([15, 6]);
  });

  it("what is blocked does not ring into another place", () => {
    const part = [event(1, 1, 4, [5], "3"), event(1, 3.5, 1, [3], "8")];
    expect(tabOf(part)).toContain("string 5 still rings");
    expect(tabOf([{ ...part[0]!, techniques: ["block"] }, part[1]!])).not.toContain("still rings");
  });
});

describe("strings at frets of their own", () => {
  const held = (strings: number[], frets: number[], beat = 1, more: Partial<PartEvent> = {}) => ({
    ...event(1, beat, 2, strings, "0"),
    ...settleFrets(frets),
    ...more,
  });

  it("under a slanted bar: every string bears the whole mark, which the legend explains", () => {
    const part = [
      event(1, 1, 1, [2, 3], "4"),
      held([2, 3], [5, 4], 2, { articulation: "slide" }),
      held([1, 3, 5], [7, 8, 9], 4, { changes: ["A"] }),
    ];
    const tab = tabOf(part, { widthColumns: 120 });
    expect(stringLine(tab, 2)).toContain("4===/[5,4]==");
    expect(stringLine(tab, 3)).toContain("4===/[5,4]==");
    expect(stringLine(tab, 5)).toContain("[7,8,9]A");
    expect(tab).toContain("[5,4] bar slanted: these frets on the strings so marked, the upper first");
    expect(tabOf([event(1, 1, 1, [2, 3], "4")])).not.toContain("slanted");
  });

  it("under fingers: each string bears its own fret, and nothing speaks of a bar", () => {
    // An open C chord (common practice, no source).
    const part = [held([1, 2, 3, 4, 5], [0, 1, 0, 2, 3])];
    const tab = tabOf(part, { copedent: GUITAR, widthColumns: 120 });
    expect([1, 2, 3, 4, 5].map((string) => /\|(\d+)/.exec(stringLine(tab, string)!)?.[1])).toEqual([
      "0",
      "1",
      "0",
      "2",
      "3",
    ]);
    expect(tab).toContain("3     pick the string, stopped at fret 3");
    expect(tab.split("\n").slice(3).join("\n")).not.toMatch(/\bbar at|no bar\b|pedal/);
  });

  it("is told where a slanted bar leaves a string that is said to ring on, and not where its line still meets it", () => {
    const checks = (part: PartEvent[], copedent: Copedent) =>
      tabOf(part, { copedent, widthColumns: 120 })
        .split("\n")
        .filter((line) => line.startsWith("Check"));
    const rings = event(1, 1, 4, [4], "3");
    expect(checks([rings, held([2, 3], [5, 4], 3)], LAP_C6)).toEqual([]);
    expect(checks([rings, held([2, 3], [4, 5], 3)], LAP_C6)).toEqual([
      "Check bar 1, beat 3: string 4 still rings at 3, but the bar goes to [4,5].",
    ]);
    expect(checks([rings, event(1, 3, 1, [2], "7")], GUITAR)).toEqual([]);
  });
});

describe("what one bar and one set of pedals cannot do", () => {
  const warnings = (part: PartEvent[], more = {}) =>
    tabOf(part, { widthColumns: 120, ...more })
      .split("\n")
      .filter((line) => line.startsWith("Check"));

  it("is told: a pedal pulls a string that is said to ring on", () => {
    // Pedal A pulls strings 5 and 10, B pulls 3 and 6 (b0b.com, B. Lee).
    const rings = event(1, 1, 4, [10], "3");
    expect(warnings([rings, event(1, 3, 1, [5], "3A")])).toEqual([
      "Check bar 1, beat 3: string 10 still rings at 3, and the pedals or levers would move it.",
    ]);
    expect(warnings([rings, event(1, 3, 1, [6], "3B")])).toEqual([]);
    expect(warnings([rings, event(1, 3, 1, [5, 10], "3A", "press")])).toEqual([]);
    expect(warnings([event(1, 1, 2, [10], "3"), event(1, 3, 1, [5], "3A")])).toEqual([]);
  });

  it("is told: the bar leaves a string that is said to ring on, unless that string is open", () => {
    expect(warnings([event(1, 1, 4, [4], "3"), event(1, 2.5, 1, [5], "5")])).toEqual([
      "Check bar 1, beat 2.5: string 4 still rings at 3, but the bar goes to 5.",
    ]);
    expect(warnings([event(1, 1, 4, [4], "0"), event(1, 2.5, 1, [5], "5")])).toEqual([]);
    const bySeconds = warnings([event(1, 1, 4, [4], "3"), event(1, 3, 1, [5], "5")], { grid: null });
    expect(bySeconds).toEqual(["Check at 1.5 s: string 4 still rings at 3, but the bar goes to 5."]);
  });

  it("is counted where it goes on and on", () => {
    const part = Array.from({ length: 12 }, (_, index) => event(2, 1 + index / 4, 0.25, [5], "5"));
    const told = warnings([event(1, 1, 16, [4], "3"), ...part]);
    expect(told).toHaveLength(9);
    expect(told.at(-1)).toBe("Check: 4 more of this kind.");
  });
});
