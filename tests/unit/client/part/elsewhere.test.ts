import { describe, expect, it } from "vitest";
import { otherGrips } from "@/lib/client/song/otherGrips";
import { shiftedFrets } from "@/lib/client/song/shiftedFrets";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import { E9 } from "@/lib/instrument/copedents/e9";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { shown } from "./anyPart";

const G = { tonic: "G", mode: "major" } as const;
const ask = (events: ShownPart[], semitones = 0, part = events) =>
  otherGrips({ copedent: E9, events, part, semitones, key: G, changes: [] });
const pitches = (event: Pick<ShownPart, "strings" | "fret" | "frets" | "changes">) =>
  stoppedPitches(E9, event)
    .map((midi) => midi ?? Number.NaN)
    .sort((a, b) => a - b);

describe("transposing along the neck", () => {
  it("moves the bar, with strings and pedals as they are", () => {
    const events = [shown("a", 1, { changes: ["A"] }), shown("b", 2, { fret: 4, frets: [5, 4] })];
    const { edits, offNeck } = shiftedFrets(events, 2, E9);
    expect(Object.fromEntries(edits)).toEqual({ a: { fret: 5 }, b: { frets: [7, 6] } });
    expect(offNeck).toEqual([]);
  });

  it("says what would leave the neck", () => {
    const events = [shown("a", 1, { fret: 2 }), shown("b", 2, { fret: 12 }), shown("c", 3, { fret: 20 })];
    expect(shiftedFrets(events, -12, E9).offNeck.map(({ id }) => id)).toEqual(["a"]);
    expect(shiftedFrets(events, 12, E9).offNeck.map(({ id }) => id)).toEqual(["c"]);
  });
});

describe("other grips", () => {
  const chord = shown("a", 1, { strings: [4, 5, 6], fret: 3 });

  it("each sound the same, and differ from one another", () => {
    const ways = ask([chord]);
    expect(ways.length).toBeGreaterThan(1);
    for (const way of ways) expect(pitches(way.get("a")!)).toEqual(pitches(chord));
    const texts = ways.map((way) => JSON.stringify(way.get("a")));
    expect(new Set(texts).size).toBe(texts.length);
  });

  it("sound so many semitones away where that is asked for", () => {
    const low = shown("a", 1, { strings: [4, 5, 6], fret: 2 });
    const [way] = ask([low], -12);
    expect(pitches(way!.get("a")!)).toEqual(pitches(low).map((midi) => midi - 12));
  });

  it("keep a string that sounds on under its pedal move, and a tie a tie", () => {
    const events = [
      shown("a", 1, { endSec: 1.5 }),
      shown("b", 1.5, { endSec: 2, changes: ["A"], articulation: "press" }),
      shown("c", 2, { endSec: 3, changes: ["A"], articulation: "tie", techniques: ["vibrato"] }),
    ];
    const ways = ask(events);
    expect(ways.length).toBeGreaterThan(0);
    for (const way of ways) {
      for (const event of events) expect(pitches(way.get(event.id)!)).toEqual(pitches(event));
      const [a, b, c] = events.map(({ id }) => way.get(id)!);
      const goesOn = (one: typeof a, other: typeof a) => one!.strings.join() === other!.strings.join();
      if (goesOn(a, b)) expect(b!.articulation).not.toBe("pick");
      expect(goesOn(b, c)).toBe(true);
      expect(c!.articulation).toBe("tie");
    }
  });

  it("events of one moment lie under one bar and one set of pedals", () => {
    const together = [
      shown("a", 1, { strings: [5], changes: ["A"] }),
      shown("b", 1, { strings: [6], changes: ["A"] }),
    ];
    for (const way of ask(together)) {
      const [a, b] = together.map(({ id }) => way.get(id)!);
      expect([a!.fret, a!.changes]).toEqual([b!.fret, b!.changes]);
    }
  });

  it("keep what rings beside them: the bar stays, and its string is not taken", () => {
    // String 8 rings for two seconds while the note on string 5 is picked over it.
    const low = shown("low", 1, { strings: [8], fret: 15, endSec: 4 });
    const high = shown("high", 2, { strings: [5], fret: 15 });
    const [alone] = ask([high], 0);
    expect(alone!.get("high")!.fret).not.toBe(15);
    const [beside] = ask([high], 0, [low, high]);
    expect(beside!.get("high")).toMatchObject({ fret: 15, strings: [5] });
    // So too where the ringing one is of those that are laid elsewhere: both under one bar.
    const [both] = ask([low, high]);
    const [a, b] = [both!.get("low")!, both!.get("high")!];
    expect(b.fret).toBe(a.fret);
    expect(b.strings).not.toEqual(a.strings);
  });

  it("do not keep what rings on past a stroke at another fret, for which the bar has left it", () => {
    const first = shown("first", 0, { strings: [5], fret: 15 });
    const low = shown("low", 1, { strings: [8], fret: 15, endSec: 6 });
    const over = shown("over", 2, { strings: [10], fret: 3 });
    const high = shown("high", 3, { strings: [5], fret: 15 });
    const [beside] = ask([first, high], 0, [first, low, high]);
    expect(beside!.get("high")!.fret).toBe(15);
    const [past] = ask([first, high], 0, [first, low, over, high]);
    expect(past!.get("high")!.fret).not.toBe(15);
  });

  it("under fingers count what rings at the fret where its own finger holds it", () => {
    const MANDOLIN = findCopedent("mandolin")!;
    const ways = (ringing: ShownPart) => {
      const first = shown("first", 0, { strings: [1], fret: 5 });
      const over = shown("over", 2, { strings: [2], fret: 3 });
      const last = shown("last", 3, { strings: [1], fret: 5 });
      const part = [first, ringing, over, last];
      const question = { copedent: MANDOLIN, events: [first, last], part, semitones: 0, key: G, changes: [] };
      return otherGrips(question).map((way) => way.get("last"));
    };
    const rings = shown("rings", 1, { strings: [4], fret: 5, endSec: 6 });
    expect(ways(rings).length).toBeGreaterThan(0);
    // Its finger can't lie there and eleven frets on: it was let go for the stroke.
    expect(ways({ ...rings, fret: 14 })[0]).toEqual(ways({ ...rings, endSec: 1.5 })[0]);
  });

  it("lie with what begins beside them and stays where it is", () => {
    const staying = shown("staying", 1, { strings: [8], fret: 3 });
    const asked = shown("asked", 1, { strings: [5], fret: 3, changes: [] });
    const ways = ask([asked], 0, [staying, asked]);
    expect(ways.length).toBeGreaterThan(0);
    for (const way of ways) expect(way.get("asked")).toMatchObject({ fret: 3, changes: [] });
  });

  it("are none where a pedal is not on this guitar", () => {
    expect(ask([shown("a", 1, { changes: ["Q"] })])).toEqual([]);
  });
});
