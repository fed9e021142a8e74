import { describe, expect, it, type Mock, vi } from "vitest";
import { PlaceTrial, partWith, type TrialPlace } from "@/lib/client/sound/PlaceTrial";
import type { PlayedEvent } from "@/lib/synth/playPart";

const event = (fret: number): PlayedEvent => ({
  ...{ startSec: 1, endSec: 2, strings: [4, 5], fret, changes: [], articulation: "pick" },
});

function places(...frets: number[]): (TrialPlace & { written: Mock<() => boolean> })[] {
  return frets.map((fret) => {
    const written = vi.fn(() => true);
    return { key: String(fret), name: `fret ${fret}`, events: () => [event(fret)], write: written, written };
  });
}

describe("trying places by ear", () => {
  it("goes round what is offered, and writes nothing", () => {
    const trial = new PlaceTrial();
    const offered = places(3, 8);
    trial.offers({ about: "a", places: offered, isComing: false, instead: ["old"] });
    expect(trial.now().tried).toBeNull();
    const keys: (string | undefined)[] = [];
    for (let count = 0; count < 3; count += 1) trial.next((tried) => keys.push(tried?.key));
    expect(keys).toEqual(["3", "8", "3"]);
    expect(trial.now().events).toEqual([event(3)]);
    for (const { written } of offered) expect(written).not.toHaveBeenCalled();
  });

  it("tells of no writing that was refused", () => {
    const trial = new PlaceTrial();
    const [refused] = places(3);
    refused!.written.mockReturnValue(false);
    trial.offers({ about: "a", places: [refused!], isComing: false, instead: [] });
    trial.next();
    const then = vi.fn();
    expect(trial.write(then)).toBe(true);
    expect(refused!.written).toHaveBeenCalledTimes(1);
    expect(then).not.toHaveBeenCalled();
  });

  it("writes the one that is tried, once", () => {
    const trial = new PlaceTrial();
    const [first, second] = places(3, 8);
    trial.offers({ about: "a", places: [first!, second!], isComing: false, instead: [] });
    trial.next();
    trial.next();
    expect(trial.write()).toBe(true);
    expect(trial.write()).toBe(false);
    expect(first!.written).not.toHaveBeenCalled();
    expect(second!.written).toHaveBeenCalledTimes(1);
    expect(trial.now().tried).toBeNull();
  });

  it("is left unwritten, and says whether there was anything to leave", () => {
    const trial = new PlaceTrial();
    trial.offers({ about: "a", places: places(3), isComing: false, instead: [] });
    expect(trial.drop()).toBe(false);
    trial.next();
    expect([trial.drop(), trial.now().tried]).toEqual([true, null]);
  });

  it("goes on while the same is offered anew, quietly, and ends where it is about something else", () => {
    const trial = new PlaceTrial();
    const heard = vi.fn();
    trial.offers({ about: "a", places: places(3, 8), isComing: false, instead: [] });
    trial.next();
    trial.watch(heard);
    const before = trial.now();
    trial.offers({ about: "a", places: places(8, 3), isComing: false, instead: [] });
    expect([trial.now().tried?.key, heard.mock.calls.length]).toEqual(["3", 0]);
    // A page that reads it while drawing would draw for ever if it were another object each time.
    expect(trial.now()).toBe(before);
    trial.offers({ about: "a", places: places(8, 3), isComing: false, instead: ["another"] });
    expect([trial.now().instead, heard.mock.calls.length]).toEqual([["another"], 1]);
    trial.offers({ about: "b", places: places(3), isComing: false, instead: [] });
    expect([trial.now().tried, heard.mock.calls.length]).toEqual([null, 2]);
  });

  it("stands in the part where it would be written, in place of what stands there", () => {
    const trial = new PlaceTrial();
    const part = [
      { id: "old", ...event(5) },
      { id: "other", ...event(7), startSec: 4, endSec: 5 },
    ];
    expect(partWith(part, trial.now())).toBe(part);
    trial.offers({ about: "a", places: places(3), isComing: false, instead: ["old"] });
    trial.next();
    expect(partWith(part, trial.now()).map(({ fret }) => fret)).toEqual([7, 3]);
  });

  it("has nothing to try where nothing is offered", () => {
    const then = vi.fn();
    new PlaceTrial().next(then);
    expect(then.mock.calls).toEqual([[null]]);
  });

  it("waits for places that are still looked for, and tells of none where none come", () => {
    const trial = new PlaceTrial();
    const then = vi.fn();
    trial.offers({ about: "a", places: [], isComing: true, instead: [] });
    trial.next(then);
    expect(then).not.toHaveBeenCalled();
    trial.offers({ about: "a", places: places(3), isComing: false, instead: [] });
    expect([then.mock.calls[0]?.[0]?.key, trial.now().tried?.key]).toEqual(["3", "3"]);
    trial.offers({ about: "b", places: [], isComing: true, instead: [] });
    trial.next(then);
    trial.offers({ about: "b", places: [], isComing: false, instead: [] });
    expect(then.mock.calls[1]).toEqual([null]);
  });

  it("writes a place that was asked for and is still looked for as soon as it is there", () => {
    const trial = new PlaceTrial();
    const [asked, then] = [vi.fn(), vi.fn()];
    const [found] = places(3);
    trial.offers({ about: "a", places: [], isComing: true, instead: [] });
    trial.next(asked);
    expect(trial.write(then)).toBe(true);
    expect(found!.written).not.toHaveBeenCalled();
    trial.offers({ about: "a", places: [found!], isComing: false, instead: [] });
    expect(found!.written).toHaveBeenCalledTimes(1);
    expect([then.mock.calls, asked.mock.calls.length, trial.now().tried]).toEqual([[[found]], 0, null]);
    trial.offers({ about: "b", places: [], isComing: true, instead: [] });
    trial.next(asked);
    trial.write(then);
    trial.offers({ about: "b", places: [], isComing: false, instead: [] });
    expect([then.mock.calls.length, asked.mock.calls]).toEqual([1, [[null]]]);
  });

  it("forgets what was asked for once it is about something else, or left", () => {
    const trial = new PlaceTrial();
    const then = vi.fn();
    trial.offers({ about: "a", places: [], isComing: true, instead: [] });
    trial.next(then);
    trial.offers({ about: "b", places: places(3), isComing: false, instead: [] });
    trial.offers({ about: "c", places: [], isComing: true, instead: [] });
    trial.next(then);
    expect(trial.drop()).toBe(true);
    trial.offers({ about: "c", places: places(3), isComing: false, instead: [] });
    expect([then.mock.calls.length, trial.now().tried]).toEqual([0, null]);
  });
});
