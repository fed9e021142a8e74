import { describe, expect, it } from "vitest";
import { PartScores, type PlayedPart } from "@/lib/client/sound/PartScores";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { PlayedEvent } from "@/lib/synth/playPart";

const MANDOLIN = findCopedent("mandolin")!;
const BASS = findCopedent("bass-4")!;
const event: PlayedEvent = {
  ...{ startSec: 1, endSec: 2.5, strings: [2], fret: 5, changes: [], articulation: "pick" as const },
};
const steel: PlayedPart = { id: "part", events: [event], copedent: E9, level: 1 };
const fiddle: PlayedPart = { id: "f", events: [event], copedent: MANDOLIN, level: 0.5 };

describe("parts as they are played", () => {
  it("have the very same notes for as long as they say the same, whatever is done to the others", () => {
    const scores = new PartScores();
    const [before] = scores.of([steel], 0);
    const [fiddled, after] = scores.of([fiddle, { ...steel, level: 0.25 }], 0);
    expect(after).toEqual({ id: "part", level: 0.25, notes: before!.notes });
    expect(fiddled!.level).toBe(0.5);
    const [, edited] = scores.of([fiddle, { ...steel, events: [{ ...event, fret: 7 }] }], 0);
    expect(edited!.notes).not.toBe(before!.notes);
    expect(scores.of([fiddle], 5)[0]!.notes).not.toBe(fiddled!.notes);
  });

  it("sound each on its own strings: the steel's foot swells and holds, what fingers stop is plainly plucked", () => {
    const parts = [steel, fiddle, { ...fiddle, id: "b", copedent: BASS }];
    const notes = new PartScores().of(parts, 0).map((part) => part.notes()[0]!);
    expect(notes.map(({ timbre }) => timbre)).toEqual(["steel", "guitar", "bass"]);
    // String 2 at fret 5: E9's D sharp 4 (rather E flat), a mandolin's A4, a bass's D2, five half steps up.
    expect(notes.map(({ pluck }) => pluck.pitch[0]!.midi)).toEqual([68, 74, 43]);
    expect(notes[0]!.pluck).toMatchObject({ opening: 0.9, attackSec: 0.035 });
    for (const { pluck } of notes.slice(1))
      expect(pluck).toMatchObject({ opening: 0, attackSec: 0.002, scrape: 0, ending: "letGo" });
  });
});
