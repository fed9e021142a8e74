import { describe, expect, it } from "vitest";
import { FitEar } from "@/lib/fit/FitEar";
import { judgeTake, type TakeSound } from "@/lib/fit/takes/judgeTake";
import type { TakeJudged } from "@/lib/fit/takes/TakeJudged";
import type { TakeStroke } from "@/lib/fit/takes/TakeStroke";
import { seededNoise } from "@/lib/synth/seededNoise";
import { renderSteel } from "@/lib/synth/steelVoice";
import { type Playing, playedTake, TAKE_RATE_HZ } from "../../../quality/takes/playedTake";

/** Two thirds, a single note that a pedal raises, a sixth, and two notes; half a second each, from 10.5 s of the record on. */
const STROKES: readonly TakeStroke[] = [[60, 64], [59, 62], [64], [57, 66], [62], [60]].map((midis, at) => {
  const startSec = 10.5 + at * 0.5;
  const endSec = startSec + 0.49;
  const glide = { eventId: "pedal", toMidi: 66, startSec: startSec + 0.2, endSec: startSec + 0.32 };
  return {
    eventId: `e${at}`,
    startSec,
    notes: midis.map((midi) => ({ midi, endSec, glides: at === 2 ? [glide] : [] })),
  };
});

/** Making one takes longer than a look. */
const ear = new FitEar(0);
const LEAD_SEC = 0.3;

function judged(playing: Omit<Playing, "seed"> = {}, endSec = 14): TakeJudged {
  const speed = playing.speed ?? 1;
  const fromStart = STROKES.map((stroke) => ({
    ...stroke,
    startSec: stroke.startSec - 10,
    notes: stroke.notes.map((note) => ({
      ...note,
      endSec: note.endSec - 10,
      glides: note.glides.map((each) => ({
        ...each,
        startSec: each.startSec - 10,
        endSec: each.endSec - 10,
      })),
    })),
  }));
  const { samples } = playedTake(fromStart, {
    seed: 3,
    noiseDb: -45,
    ...playing,
    lateSec: LEAD_SEC + (playing.lateSec ?? 0),
  });
  const take = { samples, sampleRateHz: TAKE_RATE_HZ, startSec: 10, endSec, speed, leadSec: LEAD_SEC };
  return judgeTake(ear, take, STROKES);
}

/** Single notes half a second apart, from 0.5 s on, each until it is stopped. */
function single(...notes: [midi: number, endSec: number][]): TakeStroke[] {
  return notes.map(([midi, endSec], at) => ({
    ...{ eventId: `e${at}`, startSec: 0.5 + at / 2 },
    notes: [{ midi, endSec, glides: [] }],
  }));
}

/** From the record's beginning on, at its own speed. */
function soundOf(samples: Float32Array, endSec: number): TakeSound {
  return { samples, sampleRateHz: TAKE_RATE_HZ, startSec: 0, endSec, speed: 1, leadSec: 0 };
}

describe("a take held against the part", () => {
  it("is clean where hands spread by 15 ms, all of it 80 ms late, at a slower speed", () => {
    const take = judged({ lateSec: 0.08, speed: 0.8 });
    expect(take.flaws).toEqual([]);
    expect(take).toMatchObject({ isClean: true, strokeCount: 6, foundCount: 6, besides: [], speed: 0.8 });
    expect(take.medianLateSec).toBeGreaterThan(0.06);
    expect(take.medianLateSec).toBeLessThan(0.1);
    expect(take.spreadSec).toBeLessThan(0.04);
    expect(take.strokes[2]!.glides).toEqual([
      { eventId: "pedal", toMidi: 66, hasArrived: true, heardMidi: null },
    ]);
  });

  it("tells another note in a stroke's place, and which", () => {
    const take = judged({ slips: [{ kind: "wrong", at: 1, note: 0, by: -1 }] });
    expect(take.flaws).toEqual(["other"]);
    expect(take.strokes[1]).toMatchObject({ verdict: "other", notesMidi: [59, 62], heardMidi: [58, 62] });
  });

  it("tells a stroke left out, and one that comes much too late", () => {
    const take = judged({
      slips: [
        { kind: "leftOut", at: 3 },
        { kind: "late", at: 5, bySec: 0.17 },
      ],
    });
    expect(take.flaws).toEqual(["missed", "outOfTime"]);
    expect(take.strokes[3]).toMatchObject({ verdict: "missed", lateSec: null, fit: null });
    expect(take.strokes[5]!.lateSec).toBeGreaterThan(0.12);
  });

  it("tells a pedal that was not pressed, and a note that nobody wrote", () => {
    const take = judged({
      slips: [
        { kind: "noGlide", at: 2 },
        { kind: "besides", at: 5, share: 0.5, midi: 67 },
      ],
    });
    expect(take.flaws).toEqual(["notArrived", "besides"]);
    expect(take.strokes[2]!.glides).toMatchObject([{ hasArrived: false, heardMidi: 64 }]);
    expect(take.besides).toMatchObject([{ heardMidi: [67] }]);
    expect(Math.abs(take.besides[0]!.atSec - 12.75)).toBeLessThan(0.06);
  });

  it("asks only for strokes that it was played over", () => {
    const take = judged({}, 12);
    expect(take.strokes.map(({ eventId }) => eventId)).toEqual(["e0", "e1", "e2"]);
    expect(take.isClean).toBe(true);
  });

  it("of silence says that it is silent, and that all is missed", () => {
    const take = judgeTake(
      ear,
      { ...soundOf(new Float32Array(TAKE_RATE_HZ * 4), 14), startSec: 10 },
      STROKES,
    );
    expect(take).toMatchObject({ missedCount: 6, isClean: false, medianLateSec: null, spreadSec: null });
    expect(take.flaws).toEqual(["silent", "missed"]);
  });

  it("tells a note too many in a stroke, which reads well without it too", () => {
    const take = judged({ slips: [{ kind: "thicker", at: 0, midi: 67 }] });
    expect(take.flaws).toEqual(["other"]);
    expect(take.strokes[0]).toMatchObject({ verdict: "other", heardMidi: [60, 64, 67] });
    expect(take.strokes[0]!.fit).toBeGreaterThan(0.5);
  });

  it("takes what the part lets ring on for no note of later strokes, and what it stops for one", () => {
    const playedRinging = single([60, 3.2], [64, 1.9], [67, 2.4], [65, 2.9]);
    const { samples } = playedTake(playedRinging, { seed: 3, noiseDb: -45 });
    expect(judgeTake(ear, soundOf(samples, 3), playedRinging).flaws).toEqual([]);
    const stopped = single([60, 0.99], [64, 1.9], [67, 2.4], [65, 2.9]);
    const take = judgeTake(ear, soundOf(samples, 3), stopped);
    expect(take.strokes[1]).toMatchObject({ verdict: "other", heardMidi: [60, 64] });
  });

  it("misses a note that was to be picked anew, although it still rings", () => {
    const strokes = single([60, 3.2], [64, 1.49], [60, 1.99], [65, 2.9]);
    const { samples } = playedTake(strokes, { seed: 3, noiseDb: -45, slips: [{ kind: "leftOut", at: 2 }] });
    const take = judgeTake(ear, soundOf(samples, 3), strokes);
    expect(take.strokes.map(({ verdict }) => verdict)).toEqual(["found", "found", "missed", "found"]);
  });

  it("finds what the volume pedal swells in, over 0.3 s with a pick, over 0.45 s without, where it times nothing", () => {
    const strokes = [60, 64, 62].map((midi, at) => ({
      eventId: `e${at}`,
      startSec: 0.5 + at,
      notes: [{ midi, endSec: 1.45 + at, glides: [] }],
    }));
    const swelled = (swellsSec: number[]) =>
      strokes.flatMap(({ startSec, notes }, at) =>
        notes.map(({ midi, endSec }) => ({
          ...{ startSec, endSec, pitch: [{ timeSec: startSec, midi }], vibrato: null },
          ...{ level: 0.5, swellSec: swellsSec[at]!, ending: "palm" as const },
        })),
      );
    for (const swellsSec of [
      [0.3, 0.3, 0.3],
      [0, 0.45, 0],
    ]) {
      const samples = renderSteel(swelled(swellsSec), 4, TAKE_RATE_HZ, seededNoise(3));
      const take = judgeTake(ear, soundOf(samples, 4), strokes);
      expect(take).toMatchObject({ isClean: true, foundCount: 3 });
      expect(take.strokes[1]!.lateSec === null).toBe(swellsSec[1] === 0.45);
    }
  });

  it("is plain JSON of some 140 bytes a stroke", () => {
    const take = judged();
    expect(JSON.parse(JSON.stringify(take))).toEqual(take);
    expect(JSON.stringify(take.strokes).length / take.strokes.length).toBeLessThan(170);
  });
});
