import { describe, expect, it } from "vitest";
import { frameSec } from "@/lib/hearing/learned/EarFeatures";
import {
  type ArrivalEvent,
  acceptedEvents,
  type NoteEvent,
  type PickEvent,
} from "@/lib/hearing/notes/noteEvents";
import { traceVoices, type Voice } from "@/lib/hearing/notes/voices";
import { drawnMaps, steady } from "./handMadeMaps";

const peak = (midi: number, frame: number) => ({
  frame,
  semitone: midi - 24,
  timeSec: frameSec(frame),
  height: 0.9,
  mass: 2,
  midi,
});

function pick(midi: number, frame: number, confidence = 0.9, steel = 0.9): PickEvent {
  return { ...peak(midi, frame), kind: "pick", confidence, steel, evidence: {} as PickEvent["evidence"] };
}

function arrival(midi: number, frame: number, confidence = 0.9): ArrivalEvent {
  return { ...peak(midi, frame), kind: "arrival", confidence, evidence: {} as ArrivalEvent["evidence"] };
}

const sounds = (midi: number, frame: number, frames: number) =>
  ({ map: "frame", midi, frame, values: steady(0.95, frames) }) as const;

/** Pitches of each note in order of its way. */
function ways(voices: readonly Voice[]): number[][] {
  return voices.map(({ legs }) => legs.map(({ semitone }) => semitone + 24));
}

describe("picks and arrivals together", () => {
  it("count once where they are one event: as what is likelier", () => {
    const kinds = (events: NoteEvent[]) => events.map(({ kind }) => kind);
    expect(kinds(acceptedEvents([pick(60, 20, 0.95, 0.95)], [arrival(60, 21, 0.6)]))).toEqual(["pick"]);
    expect(kinds(acceptedEvents([pick(60, 20, 0.3, 0.9)], [arrival(60, 21, 0.8)]))).toEqual(["arrival"]);
  });

  it("both count where the band strikes what the steel glides to, the pick as the band's", () => {
    const events = acceptedEvents([pick(60, 20, 0.9, 0.2)], [arrival(60, 20, 0.9)]);
    expect(events.map(({ kind }) => kind).sort()).toEqual(["arrival", "pick"]);
    expect(events.find((event): event is PickEvent => event.kind === "pick")!.steel).toBeLessThan(0.1);
  });

  it("do not count where they are unlikely", () => {
    expect(acceptedEvents([pick(60, 20, 0.2)], [arrival(64, 30, 0.1)])).toEqual([]);
  });
});

describe("notes followed through their glides", () => {
  it("chain: up and back is one note, not three", () => {
    const maps = drawnMaps(120, [sounds(60, 10, 30), sounds(62, 40, 30), sounds(60, 70, 30)]);
    const voices = traceVoices(maps, [pick(60, 10), arrival(62, 40), arrival(60, 70)], [], 0);
    expect(ways(voices)).toEqual([[60, 62, 60]]);
    expect(voices[0]!.legs.map(({ frame, endFrame }) => [frame, endFrame])).toEqual([
      [10, 40],
      [40, 70],
      [70, 100],
    ]);
  });

  it.each([
    [
      "leave no voice behind: a pair five frets up the neck is not one voice that falls and one from nowhere",
      30,
    ],
    ["go alike under one bar, even where the band holds a pitch that the steel leaves", 80],
  ])("%s", (_, lowerFrames) => {
    const maps = drawnMaps(120, [
      sounds(64, 10, lowerFrames),
      sounds(73, 10, 30),
      sounds(69, 40, 40),
      sounds(78, 40, 40),
    ]);
    const events = [pick(64, 10), pick(73, 10), arrival(69, 40), arrival(78, 41)];
    expect(ways(traceVoices(maps, events, [], 0))).toEqual([
      [64, 69],
      [73, 78],
    ]);
  });

  it("do not cross: each voice of a pair goes to the pitch near it", () => {
    const maps = drawnMaps(120, [
      sounds(65, 10, 30),
      sounds(73, 10, 30),
      sounds(66, 40, 40),
      sounds(74, 40, 40),
    ]);
    const events = [pick(65, 10), pick(73, 10), arrival(74, 40), arrival(66, 41)];
    expect(ways(traceVoices(maps, events, [], 0))).toEqual([
      [65, 66],
      [73, 74],
    ]);
  });

  it("leave a held string alone", () => {
    const maps = drawnMaps(120, [sounds(64, 10, 80), sounds(59, 10, 30), sounds(61, 40, 50)]);
    const voices = traceVoices(maps, [pick(64, 10), pick(59, 10), arrival(61, 40)], [], 0);
    expect(ways(voices)).toEqual([[64], [59, 61]]);
  });

  it("begin with a pick too faint to count where a glide leads on from it", () => {
    const maps = drawnMaps(120, [sounds(58, 10, 20), sounds(60, 30, 40)]);
    expect(ways(traceVoices(maps, [arrival(60, 30)], [pick(58, 10, 0.2, 0.5)], 0))).toEqual([[58, 60]]);
  });

  it("stand alone where nothing is heard to lead to them", () => {
    const maps = drawnMaps(120, [sounds(60, 30, 40), sounds(40, 10, 20)]);
    expect(ways(traceVoices(maps, [pick(40, 10), arrival(60, 30)], [], 0))).toEqual([[40], [60]]);
  });

  it("end where the same pitch is picked anew", () => {
    const maps = drawnMaps(120, [sounds(60, 10, 80)]);
    const voices = traceVoices(maps, [pick(60, 10), pick(60, 50)], [], 0);
    expect(voices.map(({ legs }) => legs[0]!.endFrame)).toEqual([50, 90]);
  });

  it("are likelier the steel's for gliding", () => {
    const maps = drawnMaps(120, [sounds(60, 10, 30), sounds(62, 40, 30)]);
    const [voice] = traceVoices(maps, [pick(60, 10, 0.9, 0.4), arrival(62, 40, 0.9)], [], 0);
    expect(voice!.steel).toBeCloseTo(1 - 0.6 * 0.1, 9);
  });
});
