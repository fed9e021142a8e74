import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { textTab } from "@/lib/notation/textTab";
import { playPart } from "@/lib/synth/playPart";
import { parseHarte } from "@/lib/theory/harte";
import { midiToPitchClass } from "@/lib/units/pitch";
import { demoTruth, pieceBeatToSeconds } from "@/prisma/demo/demoTruth";
import { CHANGES, PIECE, VOICINGS } from "@/prisma/demo/piece";

const truth = demoTruth();
/** A major. */
const SCALE = new Set([9, 11, 1, 2, 4, 6, 8]);
const chordAt = (timeSec: number) => {
  const change = truth.changes.find(
    ({ startSec, endSec }) => startSec - 1e-6 <= timeSec && timeSec < endSec - 1e-6,
  );
  return parseHarte(change?.label ?? "N")?.pitchClasses ?? [];
};

describe("the demo's tune", () => {
  it("fills its bars, ends on the 1 and lasts half a minute or so", () => {
    for (const bar of CHANGES) expect(bar.reduce((sum, { beats }) => sum + beats, 0)).toBe(PIECE.beatsPerBar);
    expect(CHANGES.length).toBe(16);
    expect(CHANGES.at(-1)?.map((change) => change.number)).toEqual(["1"]);
    const endSec = pieceBeatToSeconds(CHANGES.length * PIECE.beatsPerBar);
    expect(endSec).toBeGreaterThan(25);
    expect(endSec).toBeLessThan(40);
    expect(truth.changes[0]?.startSec).toBeCloseTo(PIECE.startSec);
    expect(truth.changes.at(-1)?.endSec).toBeCloseTo(endSec);
  });

  it("is voiced with notes of its chords", () => {
    for (const { number, beats } of CHANGES.flat()) {
      expect(beats % 2).toBe(0);
      const start = truth.changes.find(({ label }) => label === labelOf(number));
      const tones = parseHarte(start?.label ?? "N")?.pitchClasses ?? [];
      const voicing = VOICINGS[number]!;
      expect(midiToPitchClass(voicing.root)).toBe(parseHarte(start!.label)?.rootPitchClass);
      for (const midi of [voicing.fifth, ...voicing.strings]) expect(tones).toContain(midiToPitchClass(midi));
    }
  });

  it("has a steel part of chord tones on every downbeat and notes of the key or chord everywhere", () => {
    for (const event of truth.part) {
      const pitches = event.strings.map((string) => effectiveMidi(E9, string, event.fret, event.changes));
      const chord = chordAt(event.startSec);
      for (const midi of pitches) {
        expect(midi).not.toBeNull();
        const pitchClass = midiToPitchClass(midi!);
        expect(SCALE.has(pitchClass) || chord.includes(pitchClass)).toBe(true);
      }
      const isDownbeat = truth.beats.some(
        (beat) => beat.inBar === 1 && Math.abs(beat.timeSec - event.startSec) < 1e-6,
      );
      // In bar 3 the 4 chord comes late: the pedal resolves the held sixth of the chord (A E to A F#).
      if (isDownbeat && event.id !== "demo-8") {
        for (const midi of pitches) expect(chord).toContain(midiToPitchClass(midi!));
      }
    }
  });

  it("asks one foot and two knees for no more than they can do", () => {
    const both = (changes: string[], a: string, b: string) => changes.includes(a) && changes.includes(b);
    for (const { changes, strings } of truth.part) {
      expect(both(changes, "A", "C")).toBe(false);
      expect(both(changes, "F", "E")).toBe(false);
      expect(both(changes, "D", "X")).toBe(false);
      expect(strings.length).toBeLessThanOrEqual(3);
    }
  });

  it("never sounds a string twice at once, and carries every slide, press and release on a ringing string", () => {
    for (const string of E9.strings) {
      const events = truth.part.filter((event) => event.strings.includes(string.number));
      for (const [index, event] of events.entries()) {
        const before = events[index - 1];
        if (before !== undefined) expect(before.endSec).toBeLessThanOrEqual(event.startSec + 1e-9);
        if (event.articulation !== "pick") expect(before?.endSec).toBeCloseTo(event.startSec, 9);
      }
    }
  });

  it("shows in tab, every mark of the grammar in use", () => {
    const tab = textTab({
      title: "Demo",
      copedent: E9,
      key: truth.key,
      grid: {
        beatsSec: truth.beats.map((beat) => beat.timeSec),
        inBar: truth.beats.map((beat) => beat.inBar),
        beatsPerBar: PIECE.beatsPerBar,
      },
      changes: truth.changes,
      part: truth.part,
    });
    for (const sign of ["5===/10===", ">5A", ">5=", "\\7A", "/7BC"]) expect(tab).toContain(sign);
  });
});

describe("playing a part", () => {
  const notes = playPart(truth.part, E9);

  it("gives one note for every string picked", () => {
    const picked = truth.part.filter((event) => event.articulation === "pick");
    expect(notes).toHaveLength(picked.reduce((sum, event) => sum + event.strings.length, 0));
  });

  it("moves one voice by the pedal and holds the other, in bar 3", () => {
    const press = truth.part.find((event) => event.articulation === "press" && event.strings.includes(4))!;
    const sounding = notes.filter((note) => note.startSec < press.startSec && note.endSec > press.startSec);
    const moves = sounding.map((note) => new Set(note.pitch.map((point) => point.midi)));
    // String 4 at fret 5 is A4, string 5 goes from E4 to F#4 (b0b.com, B. Lee: A pedal lifts B to C#).
    expect(moves.map((midis) => [...midis]).sort()).toEqual([[64, 66], [69]]);
  });

  it("moves both voices alike by the bar, in bar 2", () => {
    const slide = truth.part.find((event) => event.articulation === "slide")!;
    const sounding = notes.filter((note) => note.startSec < slide.startSec && note.endSec > slide.startSec);
    expect(sounding.map((note) => note.pitch.at(-1)!.midi - note.pitch[0]!.midi)).toEqual([5, 5]);
  });
});

function labelOf(number: string): string | undefined {
  let beat = 0;
  for (const change of CHANGES.flat()) {
    if (change.number === number) {
      const at = pieceBeatToSeconds(beat);
      return truth.changes.find(({ startSec, endSec }) => startSec - 1e-6 <= at && at < endSec - 1e-6)?.label;
    }
    beat += change.beats;
  }
  return undefined;
}
