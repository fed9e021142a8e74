import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import { type PlayedEvent, playPart } from "@/lib/synth/playPart";

const event = (
  startSec: number,
  endSec: number,
  strings: number[],
  more: Partial<PlayedEvent> = {},
): PlayedEvent => ({
  ...{ startSec, endSec, strings, fret: 5, changes: [], articulation: "pick" },
  ...more,
});
const midis = (part: PlayedEvent[], copedent = E9) =>
  playPart(part, copedent).map((note) => note.pitch.map((point) => point.midi));

describe("a part as notes of the steel", () => {
  // Open strings and pedals of E9: domain sections 1.1 and 1.2 (b0b.com, B. Lee; guitarlicks.net).
  it("press and release move the string that the pedal pulls, in one note", () => {
    const part = [
      event(0, 1, [4, 5]),
      event(1, 2, [4, 5], { changes: ["A"], articulation: "press" }),
      event(2, 3, [4, 5], { articulation: "release" }),
    ];
    expect(midis(part)).toEqual([
      [69, 69, 69, 69, 69],
      [64, 64, 66, 66, 64],
    ]);
  });

  it("a slide moves all strings alike, a slide with release each to where it is then", () => {
    const slid = midis([event(0, 1, [4, 5]), event(1, 2, [4, 5], { fret: 10, articulation: "slide" })]);
    expect(slid.map((pitch) => pitch.at(-1)! - pitch[0]!)).toEqual([5, 5]);
    // String 5 at fret 12 with A sounds as at fret 14 without (domain section 9, playpedalsteel.com left foot).
    const held = midis([
      event(0, 1, [4, 5], { fret: 12, changes: ["A"] }),
      event(1, 2, [4, 5], { fret: 14, articulation: "slidePress" }),
    ]);
    expect(held.map((pitch) => pitch.at(-1)! - pitch[0]!)).toEqual([2, 0]);
  });

  it("a pedal pulls its strings wherever they ring on (domain section 7, a change is global)", () => {
    const part = [
      event(0, 2, [5]),
      event(0.5, 1, [4]),
      event(1, 2, [4], { changes: ["C"], articulation: "press" }),
    ];
    const [low, high] = midis(part);
    expect(low!.at(-1)).toBe(66);
    expect(high!.at(-1)).toBe(71);
  });

  it("a string moved again before it has arrived goes on from where it is", () => {
    const [note] = playPart(
      [
        event(0, 1, [5]),
        event(1, 1.5, [4], { changes: ["A"], articulation: "press" }),
        event(1.5, 2, [4], { articulation: "release" }),
        event(0.98, 3, [5], { articulation: "slide", fret: 10 }),
      ],
      E9,
    );
    const times = note!.pitch.map(({ timeSec }) => timeSec);
    expect(times).toEqual([...times].sort((a, b) => a - b));
  });

  it("each string stands at its own fret where frets are given, on an instrument stopped by fingers", () => {
    const guitar: Copedent = {
      ...E9,
      ...{ id: "g", stoppedBy: "fingers", changes: [], combinations: [], splits: [], grips: [] },
      strings: [64, 59, 55, 50, 45, 40].map((openMidi, at) => ({ number: at + 1, openMidi })),
    };
    // C major in the first position of a guitar in standard tuning: x32010 (common practice, no source).
    const part = [event(0, 1, [1, 2, 3, 4, 5], { fret: 1, frets: [0, 1, 0, 2, 3] })];
    expect(midis(part, guitar).flat()).toEqual([64, 60, 55, 52, 48]);
  });

  it("a string picked anew is stopped by the pick, others by the palm", () => {
    const notes = playPart([event(0, 1, [4, 5]), event(1, 2, [5])], E9);
    expect(notes.map(({ pitch, ending }) => [pitch[0]!.midi, ending])).toEqual([
      [64, "pick"],
      [69, "palm"],
      [64, "palm"],
    ]);
  });

  it("a tie sounds on without a new pick, at one pitch; tied to nothing it is picked", () => {
    const tied = [event(0, 1, [4, 5]), event(1, 2, [4, 5], { articulation: "tie" })];
    expect(playPart(tied, E9).map(({ startSec, endSec, pitch }) => [startSec, endSec, pitch.length])).toEqual(
      [
        [0, 2, 1],
        [0, 2, 1],
      ],
    );
    expect(playPart([tied[1]!], E9).map(({ startSec }) => startSec)).toEqual([1, 1]);
  });

  it("a harmonic sounds an octave higher, and goes on so until its string is picked anew", () => {
    const part = [
      event(0, 1, [5], { techniques: ["harmonic"] }),
      event(1, 2, [5], { changes: ["A"], articulation: "press" }),
      event(2, 3, [5], { changes: ["A"] }),
    ];
    // String 5 is B3, 59; at fret 5 with A it is F#4, 66 (domain section 1.1).
    expect(midis(part).map((pitch) => [pitch[0], pitch.at(-1)])).toEqual([
      [76, 78],
      [66, 66],
    ]);
  });

  it("a pedal that pulls a ringing harmonic leaves it a harmonic", () => {
    const part = [
      event(0, 2, [5], { techniques: ["harmonic"] }),
      event(1, 2, [4], { changes: ["A"], articulation: "press" }),
    ];
    expect(midis(part)[0]).toEqual([76, 76, 78]);
  });

  it("what is blocked stops half way, and what follows without a pick is picked", () => {
    const notes = playPart(
      [event(0, 1, [5], { techniques: ["block"] }), event(1, 2, [5], { articulation: "slide", fret: 7 })],
      E9,
    );
    expect(notes.map(({ startSec, endSec }) => [startSec, endSec])).toEqual([
      [0, 0.5],
      [1, 2],
    ]);
    expect(notes.map(({ pitch }) => pitch.length)).toEqual([1, 1]);
  });

  it("a vibrato shakes short notes too, for as long as it is written, but no open string", () => {
    const short = event(0, 0.4, [5], { techniques: ["vibrato"] });
    expect(playPart([{ ...short, techniques: [] }], E9)[0]!.vibrato).toBeNull();
    expect(playPart([short], E9)[0]!.vibrato).toMatchObject({ startSec: 0.1, depthCents: 20 });
    expect(playPart([{ ...short, fret: 0 }], E9)[0]!.vibrato).toBeNull();
    const tied = [event(0, 1, [5]), event(1, 2, [5], { articulation: "tie", techniques: ["vibrato"] })];
    const [shaken] = playPart([...tied, event(2, 3, [5], { articulation: "tie" })], E9);
    expect(shaken!.vibrato).toMatchObject({ startSec: 1.1, endSec: 2 });
  });

  it("leaves silent what the instrument lacks, and names a pedal that it lacks", () => {
    expect(playPart([event(0, 1, [4, 11])], E9)).toHaveLength(1);
    expect(() => playPart([event(0, 1, [4], { changes: ["Z"] })], E9)).toThrow('"Z" is no pedal or lever');
  });
});
