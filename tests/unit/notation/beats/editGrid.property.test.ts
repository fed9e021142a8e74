import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isGridBeats } from "@/lib/document/records/guards";
import type { BeatGrid } from "@/lib/notation/barGrid";
import { doubleBeats, halveBeats } from "@/lib/notation/beats/beatRate";
import { setDownbeat } from "@/lib/notation/beats/downbeat";
import { addBeatAfter, beatNear, moveBeat, removeBeat, shiftBeats } from "@/lib/notation/beats/editBeats";
import { setMeter, usualMeter } from "@/lib/notation/beats/meter";
import { anyGrid, barLengths } from "./anyGrid";

const share = fc.double({ min: 0, max: 1, noNaN: true });
const meter = fc.integer({ min: 1, max: 16 });
const someBeat = (grid: BeatGrid, at: number) => Math.floor(at * (grid.beatsSec.length - 1));

/** Every act on a grid, with what it is told drawn at random. */
const act: fc.Arbitrary<(grid: BeatGrid) => BeatGrid> = fc.oneof(
  fc.tuple(share, fc.constantFrom("song" as const, "onward" as const)).map(
    ([at, reach]) =>
      (grid: BeatGrid) =>
        setDownbeat(grid, someBeat(grid, at), reach),
  ),
  fc.tuple(share, meter, fc.constantFrom("song" as const, "onward" as const, "bar" as const)).map(
    ([at, beats, reach]) =>
      (grid: BeatGrid) =>
        setMeter(grid, someBeat(grid, at), beats, reach),
  ),
  fc.constant(halveBeats),
  fc.constant(doubleBeats),
  fc.tuple(share, fc.double({ min: -2, max: 60, noNaN: true })).map(
    ([at, toSec]) =>
      (grid: BeatGrid) =>
        moveBeat(grid, someBeat(grid, at), toSec),
  ),
  fc.double({ min: -3, max: 3, noNaN: true }).map((bySec) => (grid: BeatGrid) => shiftBeats(grid, bySec)),
  share.map((at) => (grid: BeatGrid) => addBeatAfter(grid, someBeat(grid, at))),
  share.map((at) => (grid: BeatGrid) => removeBeat(grid, someBeat(grid, at))),
);

describe("acts on a grid", () => {
  it("leave a grid that the shared song takes, whatever came before", () => {
    fc.assert(
      fc.property(anyGrid, fc.array(act, { maxLength: 6 }), (grid, acts) => {
        let now = grid;
        for (const each of acts) {
          now = each(now);
          expect(isGridBeats(now)).toBe(true);
          // Within a bar places count up one by one, so that every bar is whole but the last.
          for (const [beat, place] of now.inBar.entries())
            if (beat > 0 && place !== 1) expect(place).toBe(now.inBar[beat - 1]! + 1);
        }
      }),
    );
  });

  it("keep what a grid says beside its beats", () => {
    fc.assert(
      fc.property(anyGrid, act, (grid, each) => {
        const whole = { ...grid, division: 3 as const, freeStretches: [{ startSec: 1, endSec: 2 }] };
        expect(each(whole)).toMatchObject({ division: 3, freeStretches: [{ startSec: 1, endSec: 2 }] });
      }),
    );
  });
});

describe("twice and half as many beats", () => {
  it("half as many undoes twice as many", () => {
    fc.assert(
      fc.property(anyGrid, (grid) => {
        const back = halveBeats(doubleBeats(grid));
        expect(back.beatsSec).toEqual(grid.beatsSec);
        expect(back.inBar).toEqual(grid.inBar);
        expect(back.beatsPerBar).toBe(grid.beatsPerBar);
      }),
    );
  });

  it("twice as many leaves the bars where they begin", () => {
    fc.assert(
      fc.property(anyGrid, (grid) => {
        const openingSecs = (each: BeatGrid) => each.beatsSec.filter((_, beat) => each.inBar[beat] === 1);
        expect(openingSecs(doubleBeats(grid))).toEqual(openingSecs(grid));
      }),
    );
  });
});

describe("a downbeat", () => {
  it("stands where it was put", () => {
    fc.assert(
      fc.property(anyGrid, share, fc.constantFrom("song" as const, "onward" as const), (grid, at, reach) => {
        const beat = someBeat(grid, at);
        expect(setDownbeat(grid, beat, reach).inBar[beat]).toBe(1);
      }),
    );
  });

  it("moved onward leaves all before it as it was", () => {
    fc.assert(
      fc.property(anyGrid, share, (grid, at) => {
        const beat = someBeat(grid, at);
        expect(setDownbeat(grid, beat, "onward").inBar.slice(0, beat)).toEqual(grid.inBar.slice(0, beat));
      }),
    );
  });

  it("moved in the whole song takes every other with it, by as many beats as the nearest has to go", () => {
    fc.assert(
      fc.property(anyGrid, share, (grid, at) => {
        const beat = someBeat(grid, at);
        const last = grid.inBar.length - 1;
        const downbeats = (each: BeatGrid) =>
          each.inBar.flatMap((place, index) => (place === 1 ? [index] : []));
        // A bar that is under way at the first beat opens before it; one that the last beat leaves short would end after it.
        const all = [...downbeats(grid), last + 1 + grid.beatsPerBar - grid.inBar[last]!];
        if (grid.inBar[0] !== 1) all.unshift(1 - grid.inBar[0]!);
        const least = Math.min(...all.map((each) => Math.abs(each - beat)));
        const told = downbeats(setDownbeat(grid, beat, "song"));
        const isMovedBy = (by: number) => {
          const moved = all.map((each) => each + by).filter((each) => each >= 0 && each <= last);
          return moved.includes(beat) && told.filter((each) => each >= moved[0]!).join() === moved.join();
        };
        expect([least, -least].some(isMovedBy)).toBe(true);
      }),
    );
  });
});

describe("a metre", () => {
  it("of the whole song is the length of every whole bar", () => {
    fc.assert(
      fc.property(anyGrid, share, meter, (grid, at, beats) => {
        const told = setMeter(grid, someBeat(grid, at), beats, "song");
        expect(new Set(barLengths(told).slice(1, -1))).toEqual(
          new Set(barLengths(told).length > 2 ? [beats] : []),
        );
        expect(told.beatsPerBar).toBe(beats);
      }),
    );
  });

  it("from a bar on leaves what comes before, and is that of every whole bar after", () => {
    fc.assert(
      fc.property(anyGrid, share, meter, (grid, at, beats) => {
        const beat = someBeat(grid, at);
        const told = setMeter(grid, beat, beats, "onward");
        let opening = beat;
        while (opening > 0 && grid.inBar[opening] !== 1) opening -= 1;
        expect(told.inBar.slice(0, opening)).toEqual(grid.inBar.slice(0, opening));
        if (grid.inBar[opening] !== 1) return;
        for (const [index, place] of told.inBar.slice(opening).entries())
          expect(place).toBe((index % beats) + 1);
      }),
    );
  });

  it("of one bar leaves the length of all others", () => {
    fc.assert(
      fc.property(anyGrid, share, meter, (grid, at, beats) => {
        const lengths = barLengths(grid);
        let bar = 0;
        for (let left = someBeat(grid, at) - lengths[0]!; left >= 0; left -= lengths[bar]!) bar += 1;
        if (bar === 0 || bar >= lengths.length - 1) return;
        const told = barLengths(setMeter(grid, someBeat(grid, at), beats, "bar"));
        const wanted = lengths.with(bar, beats);
        // The song ends where it ended, so that the last bars are cut off or go on.
        const shared = Math.min(told.length, wanted.length) - 1;
        expect(told.slice(0, shared)).toEqual(wanted.slice(0, shared));
      }),
    );
  });

  it("that most bars have is the usual one", () => {
    fc.assert(
      fc.property(anyGrid, share, fc.integer({ min: 2, max: 7 }), (grid, at, beats) => {
        const told = setMeter(grid, someBeat(grid, at), beats, "song");
        expect(usualMeter(told)).toBe(beats);
      }),
    );
  });
});

describe("single beats", () => {
  it("lie between their neighbours wherever they are dragged", () => {
    fc.assert(
      fc.property(anyGrid, share, fc.double({ min: -5, max: 90, noNaN: true }), (grid, at, toSec) => {
        const beat = someBeat(grid, at);
        const { beatsSec } = moveBeat(grid, beat, toSec);
        for (const [index, sec] of beatsSec.entries()) {
          if (index !== beat) expect(sec).toBe(grid.beatsSec[index]);
          if (index > 0) expect(sec).toBeGreaterThan(beatsSec[index - 1]!);
        }
      }),
    );
  });

  it("taken out again leave the grid as it was before they were added", () => {
    fc.assert(
      fc.property(anyGrid, share, (grid, at) => {
        const beat = Math.min(someBeat(grid, at), grid.beatsSec.length - 2);
        const more = addBeatAfter(grid, beat);
        expect(more.beatsSec.length).toBe(grid.beatsSec.length + 1);
        const back = removeBeat(more, beat + 1);
        expect(back.beatsSec).toEqual(grid.beatsSec);
        expect(back.inBar).toEqual(grid.inBar);
      }),
    );
  });

  it("are found by time", () => {
    fc.assert(
      fc.property(anyGrid, share, (grid, at) => {
        const beat = someBeat(grid, at);
        expect(beatNear(grid, grid.beatsSec[beat]!)).toBe(beat);
      }),
    );
  });
});
