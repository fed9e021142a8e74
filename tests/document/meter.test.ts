import { describe, expect, it } from "vitest";
import { setGrid } from "@/lib/document/commands/whole";
import { readSong } from "@/lib/document/read/readSong";
import { gridBars } from "@/lib/notation/barGrid";
import { setMeter } from "@/lib/notation/beats/meter";
import { done, hear, registers, replica } from "./replicas";

describe("a metre that changes", () => {
  it("D56: stands in the places of the beats, in the form that older versions read", () => {
    const ann = replica("ann", 1);
    hear(ann);
    const { beatsSec, inBar, beatsPerBar } = readSong(ann.doc).grid!;
    const told = setMeter({ beatsSec, inBar, beatsPerBar }, 4, 3, "onward");
    done(setGrid(ann.ctx, told));
    const grid = readSong(ann.doc).grid!;
    expect(grid.inBar.join("")).toBe("1234123123123123");
    expect(grid.beatsPerBar).toBe(4);
    const written = Object.entries(registers(ann.doc)).find(([key]) => /^grid\/.*\.beats$/.test(key))!;
    expect(Object.keys(written[1] as object).sort()).toEqual(["beatsPerBar", "beatsSec", "inBar"]);
  });

  it("D56: past its ends goes on with the bars that it ends with", () => {
    const grid = {
      beatsSec: Array.from({ length: 13 }, (_, beat) => beat),
      inBar: [1, 2, 3, 4, 1, 2, 3, 4, 1, 2, 1, 2, 1],
      beatsPerBar: 4,
    };
    const lengths = (from: number, to: number) =>
      gridBars(grid, from, to).map((bar) => bar.endBeat - bar.startBeat);
    expect(lengths(-8, -1)).toEqual([4, 4]);
    expect(lengths(12, 17)).toEqual([2, 2, 2]);
    // One odd bar at an end says nothing of what would come after it.
    const odd = { ...grid, inBar: [1, 2, 3, 4, 1, 2, 3, 4, 1, 2, 3, 1, 2] };
    expect(gridBars(odd, 15, 20).map((bar) => bar.endBeat - bar.startBeat)).toEqual([4, 4]);
  });
});
