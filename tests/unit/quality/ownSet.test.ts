import { describe, expect, it } from "vitest";
import { bassPart } from "../../quality/own/bassPart";
import { damaged } from "../../quality/own/damage";
import { bassMidi, layOut, voicing } from "../../quality/own/layOut";
import { ownPassage } from "../../quality/own/ownPassage";
import { ownSet } from "../../quality/own/ownSet";
import { playOwn, playSong } from "../../quality/own/playOwn";
import type { OwnSong } from "../../quality/own/songs";

const SONG: OwnSong = {
  ...{ id: "x", bpm: 120, beatsPerBar: 4, division: 2, tuningCents: 0, groove: "two-beat" },
  sections: [
    { label: "A", home: { tonic: "C", mode: "major" }, bars: ["C:maj", "C:maj/3 G:7 ^45 ^47"] },
    { label: "B", home: { tonic: "D", mode: "major" }, bars: ["D:maj"] },
  ],
};

describe("our own songs", () => {
  it("are annotated by what their players play", () => {
    const laid = layOut(SONG);
    expect(laid.beats.map(({ inBar }) => inBar)).toEqual([1, 2, 3, 4, 1, 2, 3, 4, 1, 2, 3, 4]);
    expect(laid.beats[4]!.timeSec - laid.beats[0]!.timeSec).toBeCloseTo(2, 12);
    expect(laid.homes.map(({ tonic }) => tonic)).toEqual(["C", "D"]);
    expect(laid.homes[0]!.endSec).toBeCloseTo(laid.beats[8]!.timeSec, 12);
    expect(laid.sections.map(({ label, startSec }) => [label, startSec])).toEqual([
      ["A", 0],
      ["B", laid.beats[8]!.timeSec],
    ]);
    expect(laid.sections.at(-1)!.endSec).toBe(laid.durationSec);
    // Root, fifth; the third that the inversion has below, then the two notes of the walk; root, fifth.
    expect(bassPart(SONG, laid).map(({ midi }) => midi)).toEqual([36, 31, 28, 45, 47, 38, 33]);
  });

  it("tell every note of a passage: picks of all players, and where the steel's pedal has arrived", () => {
    const { notes, glides, span } = ownPassage(SONG);
    const of = (role: string, kind = "attack") =>
      notes.filter((note) => note.role === role && note.kind === kind).map(({ midi }) => midi);
    expect(of("bass")).toEqual(bassPart(SONG, layOut(SONG)).map(({ midi }) => midi));
    // Two strings of the chord in each bar; in the second the upper one comes from a whole step below.
    expect(of("steel")).toEqual([64, 67, 67, 70, 66, 74]);
    expect(of("steel", "slide")).toEqual([72]);
    expect(
      glides!.map(({ atSec, toMidi }) => [
        Number((atSec - layOut(SONG).beats[4]!.timeSec).toFixed(3)),
        toMidi,
      ]),
    ).toEqual([[0.2, 72]]);
    // A down stroke meets its strings one after another, the lowest first.
    const stroke = notes.filter(({ role }) => role === "guitar").slice(0, 3);
    expect(stroke.map(({ midi }) => midi)).toEqual([52, 55, 60]);
    expect(stroke[2]!.startSec - stroke[0]!.startSec).toBeCloseTo(0.018, 12);
    expect(span.endSec).toBe(layOut(SONG).durationSec);
  });

  it("have their chords' notes", () => {
    expect(voicing("C:7", 52)).toEqual([52, 55, 58, 60]);
    expect(bassMidi("D:min/b3", "bass")).toBe(29);
    expect(bassMidi("B:dim", "fifth")).toBe(29);
  });

  it("are many, of every kind, and named apart", () => {
    const { subjects } = ownSet();
    expect(new Set(subjects.map(({ id }) => id)).size).toBe(subjects.length);
    expect(new Set(subjects.map(({ truth }) => truth.beatsPerBar))).toEqual(new Set([2, 3, 4]));
    expect(new Set(subjects.map(({ truth }) => truth.division))).toEqual(new Set([2, 3]));
    expect(subjects.some(({ truth }) => truth.homes!.length > 1)).toBe(true);
    for (const { truth, durationSec } of subjects) {
      for (const list of [truth.chords!, truth.homes!, truth.bass!]) {
        for (const [i, { startSec, endSec }] of list.entries()) {
          expect(endSec).toBeGreaterThan(startSec);
          expect(startSec).toBeGreaterThanOrEqual((list[i - 1]?.endSec ?? 0) - 1e-9);
          expect(endSec).toBeLessThanOrEqual(durationSec + 1e-9);
        }
      }
    }
  });

  it("sound the same each time, and otherwise where they are damaged", () => {
    const bar = { ...SONG, sections: [{ ...SONG.sections[0]!, bars: ["C:maj"] }] };
    const first = playSong(bar, null);
    expect(first.channels).toHaveLength(2);
    expect(playSong(bar, null).channels).toEqual(first.channels);
    const [noisy, ...others] = playSong(bar, "noise").channels;
    expect(others).toHaveLength(0);
    expect(noisy).not.toEqual(first.channels[0]);
    expect(() => playOwn("no such song", null)).toThrow(RangeError);
  }, 60_000);

  it("lose what a narrow band does not pass", () => {
    const rateHz = 32_000;
    const tone = (hertz: number) =>
      Float32Array.from({ length: rateHz }, (_, i) => Math.sin((2 * Math.PI * hertz * i) / rateHz));
    // How much of the tone is left, against all that is there.
    const kept = (hertz: number) => {
      const [out] = damaged([tone(hertz)], rateHz, "old-record");
      const like = tone(hertz);
      let [sine, cosine] = [0, 0];
      for (let i = 0; i < rateHz; i++) {
        sine += (2 / rateHz) * out![i]! * like[i]!;
        cosine += (2 / rateHz) * out![i]! * Math.cos((2 * Math.PI * hertz * i) / rateHz);
      }
      return Math.hypot(sine, cosine);
    };
    expect(kept(800)).toBeGreaterThan(0.8);
    expect(kept(12_000)).toBeLessThan(0.2);
    expect(kept(40)).toBeLessThan(0.2);
  });
});
