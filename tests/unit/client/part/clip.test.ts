import { describe, expect, it } from "vitest";
import { copiesOnGuitar } from "@/lib/client/song/copiesOnGuitar";
import { clipOf, placedInTime, readClip } from "@/lib/client/song/PartClip";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import { E9 } from "@/lib/instrument/copedents/e9";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { LAP_C6 } from "../../../fixtures/fretted/necks";
import { GRID, shown } from "./anyPart";

const events = [
  shown("a", 2, { changes: ["A", "B"], techniques: ["vibrato"] }),
  shown("b", 2.5, { endSec: 3.5, articulation: "press", mark: "pencil", fret: 4, frets: [5, 4] }),
];
const G = { tonic: "G", mode: "major" } as const;

describe("a clip of a part", () => {
  it("reads back as it was written, with its guitar", () => {
    const clip = clipOf(events, E9, GRID);
    const read = readClip(JSON.stringify(clip));
    expect(read?.clip).toEqual(clip);
    expect(read?.copedent.strings).toEqual(E9.strings);
    expect(JSON.stringify(clip)).not.toContain("ann");
  });

  it.each([
    ["another text", "3AB"],
    ["another form", JSON.stringify({ form: "tab" })],
    ["a newer form", JSON.stringify({ ...clipOf(events, E9, GRID), version: 2 })],
    ["no events", JSON.stringify({ ...clipOf(events, E9, GRID), events: [] })],
    ["no chart", JSON.stringify({ ...clipOf(events, E9, GRID), chart: {} })],
    ["a fret off any neck", JSON.stringify(clipOf([shown("a", 1, { fret: 99 })], E9, GRID))],
    ["nothing", ""],
  ])("is not read out of %s", (_, text) => {
    expect(readClip(text)).toBeNull();
  });

  it("keeps its place among the beats in a song of another tempo, and its marks", () => {
    const slow = { ...GRID, beatsSec: GRID.beatsSec.map((sec) => sec * 2) };
    const placed = placedInTime(clipOf(events, E9, GRID), 4, slow, 60);
    expect(placed.map(({ mark, event }) => [mark, event.startSec, event.endSec])).toEqual([
      ["ink", 4, 5],
      ["pencil", 5, 7],
    ]);
    expect(placed[1]!.event).toMatchObject({ articulation: "press", frets: [5, 4] });
  });

  it("goes by seconds where either song has no beats, and no further than the record", () => {
    const times = (placed: ReturnType<typeof placedInTime>) =>
      placed.map(({ event }) => [event.startSec, event.endSec]);
    const bySeconds = [
      [10, 10.5],
      [10.5, 11],
    ];
    expect(times(placedInTime(clipOf(events, E9, null), 10, GRID, 11))).toEqual(bySeconds);
    expect(times(placedInTime(clipOf(events, E9, GRID), 10, null, 11))).toEqual(bySeconds);
    expect(times(placedInTime(clipOf(events, E9, null), 10, null, 10.4))).toEqual([[10, 10.4]]);
  });

  it("stays as it is on the same guitar under whatever name, and sounds the same on another", () => {
    const copies = placedInTime(clipOf(events, E9, GRID), 2, GRID, 60);
    const around = { key: G, changes: [] };
    expect(copiesOnGuitar(copies, E9, { ...E9, id: "own", name: "Mine" }, around).copies).toEqual(copies);
    const other = findCopedent("c6")!;
    const on = copiesOnGuitar(copies.slice(0, 1), E9, other, around);
    for (const { event } of on.copies)
      expect(stoppedPitches(other, event).sort()).toEqual(stoppedPitches(E9, copies[0]!.event).sort());
    expect(on.copies.length + on.leftOut.length).toBe(1);
    // A lap steel without pedals has strings of its own tuning: what it cannot give is left out and counted.
    const lap = copiesOnGuitar(copies, E9, LAP_C6, around);
    expect(lap.copies.length + lap.leftOut.length).toBe(2);
  });
});
