import { describe, expect, it } from "vitest";
import { hearForm } from "@/lib/hearing/form/sections";
import { BEAT_SEC, PHRASES, played } from "./playedForm";

type Phrase = readonly [name: string, semitones?: number];

/** Label, first bar and transposition of each section. */
function heard(evidence: Parameters<typeof hearForm>[0], barSec = 4 * BEAT_SEC) {
  return hearForm(evidence).sections.map(({ label, startSec, transposedSemitones }) => [
    label,
    Math.round(startSec / barSec),
    transposedSemitones,
  ]);
}

function bars(...names: string[]): number {
  return names.reduce((sum, name) => sum + PHRASES[name]!.split(" ").length, 0);
}

describe("the form of a record", () => {
  it("AABA: the bridge apart, all verses one letter", () => {
    const phrases: Phrase[] = [["verse"], ["verse"], ["bridge"], ["verse"]];
    expect(heard(played({ phrases }))).toEqual([
      ["A", 0, 0],
      ["A", 8, 0],
      ["B", 16, 0],
      ["A", 24, 0],
    ]);
  });

  it("verse, chorus and bridge, with an intro and an ending of their own", () => {
    const names = ["intro", "verse", "chorus", "verse", "chorus", "bridge", "chorus", "ending"];
    const sections = heard(played({ phrases: names.map((name): Phrase => [name]) }));
    expect(sections.map(([label]) => label).join("")).toBe("ABCBCDCE");
    expect(sections.map(([, bar]) => bar)).toEqual(names.map((_, i) => bars(...names.slice(0, i))));
  });

  it("strophes, each as long as the first", () => {
    const phrases: Phrase[] = [["blues"], ["blues"], ["blues"], ["blues"]];
    expect(heard(played({ phrases }))).toEqual([0, 12, 24, 36].map((bar) => ["A", bar, 0]));
  });

  it("the last verse and chorus up a step keep their letters", () => {
    for (const step of [1, 2, 3, -2]) {
      const up = (step + 12) % 12;
      const phrases: Phrase[] = [
        ["verse"],
        ["bridge"],
        ["verse"],
        ["bridge"],
        ["bridge"],
        ["verse", up],
        ["bridge", up],
      ];
      const sections = heard(played({ phrases }));
      expect(sections.map(([label]) => label).join("")).toBe("ABABBAB");
      expect(sections.map(([, , semitones]) => semitones)).toEqual([0, 0, 0, 0, 0, step, step]);
    }
  });

  it("a turn-around of two bars puts nothing out of step", () => {
    const phrases: Phrase[] = [["intro"], ["verse"], ["turnaround"], ["verse"], ["bridge"], ["verse"]];
    const sections = heard(played({ phrases }));
    expect(sections.map(([label]) => label).join("")).toBe("ABBCB");
    expect(sections.map(([, bar]) => bar)).toEqual([0, 4, 14, 22, 30]);
  });

  it("cuts what has always come together once a part of it comes alone", () => {
    const names = ["intro", "verse", "verse", "ending", "bridge", "verse", "ending", "bridge", "verse"];
    const sections = heard(played({ phrases: names.map((name): Phrase => [name]) }));
    const verses = sections.filter(([, bar]) => [4, 12, 32, 52].includes(Number(bar)));
    expect(verses.map(([label]) => label)).toEqual(["B", "B", "B", "B"]);
  });

  it("four bars that are like others only at another pitch make no repeat", () => {
    const phrases: Phrase[] = [["verse"], ["verse"], ["intro"], ["bridge"], ["intro", 5], ["verse"]];
    const sections = heard(played({ phrases }));
    expect(sections.map(([label, bar]) => [label, bar])).toEqual([
      ["A", 0],
      ["A", 8],
      ["B", 16],
      ["A", 32],
    ]);
  });

  it("one section where nothing repeats, and where there are no bars at all", () => {
    const once = played({ phrases: [["verse"], ["bridge"]] });
    expect(heard(once)).toEqual([["A", 0, 0]]);
    expect(hearForm({ ...once, grid: { beats: [], beatsPerBar: 4 } }).sections).toEqual([
      {
        startSec: 0,
        endSec: once.durationSec,
        label: "A",
        transposedSemitones: 0,
        confidence: expect.any(Number),
      },
    ]);
  });

  it("does not depend on the bar's length, nor on a pick-up before the first", () => {
    const phrases: Phrase[] = [["verse"], ["verse"], ["bridge"], ["verse"]];
    const waltz = hearForm(played({ phrases, beatsPerBar: 3, pickupBeats: 2 })).sections;
    expect(waltz.map(({ label }) => label).join("")).toBe("AABA");
    const firstSec = 2 * BEAT_SEC;
    expect(waltz.map(({ startSec }) => startSec)).toEqual([
      0,
      ...[8, 16, 24].map((bar) => firstSec + bar * 3 * BEAT_SEC),
    ]);
  });

  it("bears a few bars heard wrongly, and is then less sure", () => {
    const phrases: Phrase[] = [["verse"], ["verse"], ["bridge"], ["verse"]];
    const clear = hearForm(played({ phrases }));
    const blurred = hearForm(played({ phrases, misheard: [9, 29], sure: 0.7 }));
    expect(blurred.sections.map(({ label }) => label).join("")).toBe("AABA");
    for (const s of [1, 3]) {
      expect(blurred.sections[s]!.confidence).toBeLessThan(clear.sections[s]!.confidence);
      expect(clear.sections[s]!.confidence).toBeLessThan(1);
    }
  });

  it("covers the whole record without gaps, the same each time", () => {
    const evidence = played({
      phrases: [["intro"], ["verse"], ["chorus"], ["verse"], ["chorus"], ["ending"]],
    });
    const { sections } = hearForm(evidence);
    expect(sections[0]!.startSec).toBe(0);
    expect(sections.at(-1)!.endSec).toBe(evidence.durationSec);
    for (const [i, { startSec }] of sections.slice(1).entries()) expect(startSec).toBe(sections[i]!.endSec);
    expect(hearForm(evidence)).toEqual(hearForm(evidence));
  });
});

describe("which bar is which bar again", () => {
  it("points back to the first section of the letter, at its pitch", () => {
    const { repeats } = hearForm(played({ phrases: [["verse"], ["bridge"], ["verse"], ["verse", 2]] }));
    const pointers = repeats.map(({ bar, of, semitones }) => [bar, of, semitones]);
    expect(pointers).toEqual([
      ...Array.from({ length: 8 }, (_, i) => [16 + i, i, 0]),
      ...Array.from({ length: 8 }, (_, i) => [24 + i, i, 2]),
    ]);
  });

  it("leaves out a bar that is played otherwise", () => {
    const { repeats } = hearForm(played({ phrases: [["verse"], ["bridge"], ["verse"]], misheard: [18] }));
    expect(repeats.map(({ bar }) => bar)).toEqual([16, 17, 19, 20, 21, 22, 23]);
  });
});
