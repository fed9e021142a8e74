import { describe, expect, it } from "vitest";
import { frameSec } from "@/lib/hearing/learned/EarFeatures";
import { certainty, mapLogOdds } from "@/lib/hearing/notes/LogisticModel";
import { frameAt, NoteMaps } from "@/lib/hearing/notes/NoteMaps";
import { mapPeaks } from "@/lib/hearing/notes/peaks";
import { pitchOf, soundsUntil } from "@/lib/hearing/notes/pitch";
import { drawnMaps, steady } from "./handMadeMaps";

const C4 = 60 - 24;

describe("kept note maps", () => {
  it("give back what each frame said, and 0 elsewhere", () => {
    const maps = drawnMaps(
      10,
      [{ map: "frame", midi: 60, frame: 3, values: [0.25, 0.75] }],
      ["onset", "frame"],
    );
    expect([2, 3, 4, 5].map((frame) => maps.at("frame", frame, C4))).toEqual([0, 0.25, 0.75, 0]);
    expect(maps.at("onset", 3, C4)).toBe(0);
    expect(maps.at("frame", -1, C4) + maps.at("frame", 10, C4) + maps.at("frame", 3, 96)).toBe(0);
    expect(maps.mean("frame", 2, 5, C4)).toBe(0.25);
    expect(maps.most("frame", 0, 9, C4)).toBe(0.75);
  });

  it("say 0 in maps that the weights do not hold", () => {
    const maps = drawnMaps(4, [], ["onset", "frame"]);
    expect(maps.at("steelOnset", 1, C4)).toBe(0);
  });

  it("keep only their stretch", () => {
    const maps = new NoteMaps(["frame"], 5, 7);
    for (let index = 0; index < 10; index++) {
      maps.keep({ index, values: new Float32Array(96).fill((index + 1) / 16), step: 1 });
    }
    expect([4, 5, 6, 7].map((frame) => maps.at("frame", frame, 0))).toEqual([0, 6 / 16, 7 / 16, 0]);
    expect(() => new NoteMaps(["frame"], 7, 5)).toThrow(RangeError);
  });

  it("find the first frame at a time or after", () => {
    for (const frame of [8, 9, 100, 5_000]) expect(frameAt(frameSec(frame))).toBe(frame);
    expect(frameAt(frameSec(100) + 0.001)).toBe(101);
    expect(frameAt(-5)).toBe(0);
  });
});

describe("peaks of a map", () => {
  it("stand between frames, at the centroid", () => {
    const maps = drawnMaps(40, [{ map: "onset", midi: 60, frame: 20, values: [0.2, 0.6, 0.6, 0.2] }]);
    const peaks = mapPeaks(maps, "onset", 2, 0.1);
    expect(peaks).toHaveLength(1);
    expect(peaks[0]).toMatchObject({ frame: 21, semitone: C4 });
    // Two frames each way of the peak hold all four values, which lie about 21.5.
    expect(peaks[0]!.timeSec).toBeCloseTo(frameSec(21.5), 6);
    expect(peaks[0]!.mass).toBeCloseTo(1.6, 6);
  });

  it("are told apart when they lie farther apart than the reach, and need their height", () => {
    const onset = (frame: number, height: number) =>
      ({ map: "onset", midi: 60, frame, values: [height] }) as const;
    const heights = (maps: NoteMaps) => mapPeaks(maps, "onset", 2, 0.1).map(({ frame }) => frame);
    expect(heights(drawnMaps(40, [onset(10, 0.9), onset(13, 0.5)]))).toEqual([10, 13]);
    expect(heights(drawnMaps(40, [onset(10, 0.9), onset(12, 0.5)]))).toEqual([10]);
    expect(heights(drawnMaps(40, [onset(10, 0.9), onset(20, 0.09)]))).toEqual([10]);
  });
});

describe("the pitch and the length of a note", () => {
  it("is the centre of a vibrato, in tune with the record", () => {
    const shake = Array.from({ length: 40 }, (_, i) => 0.1 + 0.3 * Math.sin((2 * Math.PI * i) / 8));
    const maps = drawnMaps(60, [
      { map: "frame", midi: 60, frame: 10, values: steady(0.95, 40) },
      { map: "offset", midi: 60, frame: 10, values: shake },
    ]);
    expect(pitchOf(maps, C4, 10, 50, 0)).toBeCloseTo(60.1, 3);
    expect(pitchOf(maps, C4, 10, 50, 10)).toBeCloseTo(60, 3);
  });

  it("counts only frames in which it sounds", () => {
    const maps = drawnMaps(60, [
      { map: "frame", midi: 60, frame: 10, values: [...steady(0.9, 10), ...steady(0, 10)] },
      { map: "offset", midi: 60, frame: 10, values: [...steady(0.2, 10), ...steady(-0.5, 10)] },
    ]);
    expect(pitchOf(maps, C4, 10, 30, 0)).toBeCloseTo(60.2, 2);
  });

  it("ends a note in a run of silence, not in a gap of two frames", () => {
    const gap = [...steady(0.9, 5), 0.1, 0.1, ...steady(0.9, 5)];
    const maps = drawnMaps(60, [{ map: "frame", midi: 60, frame: 10, values: gap }]);
    expect(soundsUntil(maps, C4, 10, 60)).toBe(22);
    expect(soundsUntil(maps, C4, 10, 15)).toBe(15);
  });
});

describe("a logistic model", () => {
  it("gives the odds of its weights, and takes only the evidence that it weighs", () => {
    const model = { bias: Math.log(2), weights: { onset: 1 } };
    expect(certainty(model, { onset: 0, held: 5 })).toBeCloseTo(2 / 3, 12);
    expect(certainty(model, { onset: Math.log(2), held: -5 })).toBeCloseTo(4 / 5, 12);
  });

  it("undoes log odds, within bounds", () => {
    expect(certainty({ bias: mapLogOdds(0.3), weights: {} }, {})).toBeCloseTo(0.3, 12);
    expect(Number.isFinite(mapLogOdds(0)) && Number.isFinite(mapLogOdds(1))).toBe(true);
  });
});
