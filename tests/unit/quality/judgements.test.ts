import { describe, expect, it } from "vitest";
import { judge } from "../../quality/judgements";
import { piecesOf } from "../../quality/metrics/pieces";
import type { Subject, Truth } from "../../quality/Subject";
import { chordsWithinThree, homeWithinThree } from "../../quality/withinThree";
import { beats, chord, home, prediction } from "./hearings";

const subject = (truth: Truth): Subject => ({
  ...{ id: "x", group: "g", durationSec: 20, truth },
  source: { kind: "file", path: "x.ogg" },
});
const span = (startSec: number, endSec: number, label: string) => ({ startSec, endSec, label });

describe("what is said with a certainty", () => {
  it("is cut where the reference or the estimate changes", () => {
    const pieces = piecesOf([span(0, 10, "a"), span(12, 20, "b")], [span(5, 15, "c")]);
    expect(pieces.map((p) => [p.startSec, p.endSec, p.reference.label, p.estimate?.label ?? null])).toEqual([
      [0, 5, "a", null],
      [5, 10, "a", "c"],
      [12, 15, "b", "c"],
      [15, 20, "b", null],
    ]);
  });

  it("of the grid is judged once a record, the bars together with the beats", () => {
    const judged = judge(subject({ beats: beats(40, 0, 0.5, 4, 2), beatsPerBar: 4 }), prediction());
    expect(judged.beats).toEqual([{ said: 0.8, right: true, weight: 1 }]);
    expect(judged.bars).toEqual([{ said: 0.4, right: false, weight: 1 }]);
    expect(judged.barsIfBeatsRight).toEqual([{ said: 0.5, right: false, weight: 1 }]);
    expect(judged.meter).toEqual([{ said: 0.4, right: true, weight: 1 }]);
    const atHalf = judge(subject({ beats: beats(20, 0, 1) }), prediction());
    expect(atHalf.beats).toEqual([{ said: 0.8, right: false, weight: 1 }]);
    expect(atHalf.barsIfBeatsRight).toBeUndefined();
    expect(atHalf.meter).toBeUndefined();
  });

  it("of chords is judged by the second and by the change", () => {
    const heard = prediction({ chords: [chord(0, 8, "G:maj", 0.7), chord(8, 20, "C:maj", 0.9)] });
    const judged = judge(subject({ chords: [span(0, 10, "G:maj"), span(10, 20, "C:7")] }), heard);
    expect(judged.chordsMajmin).toEqual([
      { said: 0.7, right: true, weight: 8 },
      { said: 0.9, right: false, weight: 2 },
      { said: 0.9, right: true, weight: 10 },
    ]);
    expect(judged.chordsSevenths?.map(({ right }) => right)).toEqual([true, false, false]);
    expect(judged.changesMajmin).toEqual([
      { said: 0.7, right: true, weight: 1 },
      { said: 0.9, right: true, weight: 1 },
    ]);
    expect(judged.changesSevenths?.map(({ right }) => right)).toEqual([true, false]);
  });

  it("of tuning, home, bass notes and sections is judged each in its own way", () => {
    const heard = prediction({
      tuningCents: 6,
      homes: [home(0, 15, "G"), home(15, 20, "D")],
      bass: [
        { startSec: 1.04, endSec: 2, midi: 43, confidence: 0.6 },
        { startSec: 2.2, endSec: 3, midi: 36, confidence: 0.5 },
      ],
      sections: [
        { startSec: 0, endSec: 8, label: "A", transposedSemitones: 0, confidence: 1 },
        { startSec: 8, endSec: 16, label: "A", transposedSemitones: 0, confidence: 0.7 },
        { startSec: 16, endSec: 20, label: "B", transposedSemitones: 0, confidence: 0.6 },
      ],
    });
    const note = (startSec: number, midi: number) => ({
      ...{ startSec, endSec: startSec + 1, midi, role: "bass" },
      kind: "attack" as const,
    });
    const judged = judge(
      subject({
        tuningCents: 0,
        key: { tonic: "G", mode: "major" },
        bass: [note(1, 43), note(2, 36)],
        sections: [span(0, 8, "verse"), span(8, 20, "chorus")],
      }),
      heard,
    );
    expect(judged.tuning?.[0]?.right).toBe(false);
    expect(judged.home).toEqual([
      { said: 0.8, right: true, weight: 15 },
      { said: 0.8, right: false, weight: 5 },
    ]);
    expect(judged.bass?.map(({ right }) => right)).toEqual([true, false]);
    // The second is no repeat of the first; the third is no music of its own.
    expect(judged.sections?.map(({ right }) => right)).toEqual([true, false, false]);
  });

  it("may be right within the first three guesses", () => {
    const heard = {
      ...chord(0, 10, "G:maj"),
      nextBest: [
        { label: "E:min", confidence: 0.1 },
        { label: "D:7", confidence: 0.05 },
        { label: "C:maj", confidence: 0.01 },
      ],
    };
    const reference = [span(0, 4, "D:7"), span(4, 6, "C:maj"), span(6, 9, "G:maj"), span(9, 10, "N")];
    expect(chordsWithinThree(reference, [heard], "sevenths")).toEqual({ rightSec: 7, scoredSec: 10 });
    const guess = { ...home(0, 20, "G"), nextBest: [{ ...home(0, 0, "E", "minor") }] };
    const homes = [
      { startSec: 0, endSec: 12, tonic: "E", mode: "minor" },
      { startSec: 12, endSec: 99, tonic: "A", mode: "major" },
    ];
    expect(homeWithinThree(homes, [guess])).toEqual({ rightSec: 12, scoredSec: 20 });
  });
});
