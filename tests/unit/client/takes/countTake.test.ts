import { describe, expect, it } from "vitest";
import { cleanFor, countTake, takeWithin } from "@/lib/client/takes/countTake";
import { addStudies } from "@/lib/document/commands/studies";
import { readSong } from "@/lib/document/read/readSong";
import { done, replica } from "../../../document/replicas";
import { judgedStroke as stroke, judgedTake as take } from "./judgedTakes";

const strokes = [1, 2, 3, 4].map((startSec) => ({ eventId: `e${startSec}`, startSec }));
const strokesOf = ({ startSec, endSec }: { startSec: number; endSec: number }) =>
  strokes.filter((each) => each.startSec >= startSec && each.startSec < endSec);
const clean = strokes.map(({ eventId, startSec }) => stroke(eventId, startSec));
const missed = { verdict: "missed" as const, lateSec: null, fit: null };

describe("which passages a take counts for", () => {
  it("are those all of whose strokes it was played over, and found", () => {
    const studies = [
      { id: "all", startSec: 0, endSec: 5 },
      { id: "first", startSec: 0, endSec: 2.5 },
      { id: "last", startSec: 3.5, endSec: 5 },
      { id: "empty", startSec: 6, endSec: 8 },
    ];
    expect(cleanFor(take(clean), studies, strokesOf)).toEqual(["all", "first", "last"]);
    expect(cleanFor(take(clean.slice(0, 3)), studies, strokesOf)).toEqual(["first"]);
    const oneMissed = clean.map((each, at) => (at === 3 ? { ...each, ...missed } : each));
    expect(cleanFor(take(oneMissed), studies, strokesOf)).toEqual(["first"]);
    expect(cleanFor(take(clean, [{ atSec: 1.5, heardMidi: [60] }]), studies, strokesOf)).toEqual(["last"]);
  });

  it("are told by how it lies there alone", () => {
    const late = clean.map((each, at) => ({ ...each, lateSec: at < 2 ? 0 : 0.12 }));
    const within = takeWithin(
      take(late),
      { startSec: 0, endSec: 2.5 },
      strokesOf({ startSec: 0, endSec: 2.5 }),
    );
    expect(within).toMatchObject({ strokeCount: 2, medianLateSec: 0, isClean: true });
  });

  it("count it once each, at full speed where it was, and nothing where one may not write (D64)", () => {
    const ann = replica("ann", 1);
    const stretch = { startSec: 0, endSec: 5, name: "" };
    done(addStudies(ann.ctx, [stretch, { ...stretch, endSec: 2.5 }]));
    const acts = (mayWrite: boolean) => ({
      mayWrite,
      keep: (command: (ctx: typeof ann.ctx) => unknown) => void command(ann.ctx),
    });
    const studies = () => readSong(ann.doc).studies;
    expect(countTake(acts(false), take(clean), studies(), strokesOf)).toEqual([]);
    expect(countTake(acts(true), take(clean), studies(), strokesOf)).toHaveLength(2);
    countTake(acts(true), take(clean, [], { speed: 0.75 }), studies().slice(0, 1), strokesOf);
    const counts = studies().map((study) => study.clean[0]);
    expect(counts.map((each) => [each?.times, each?.fullSpeedTimes]).sort()).toEqual([
      [1, 1],
      [2, 1],
    ]);
  });
});
