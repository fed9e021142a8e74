import { describe, expect, it } from "vitest";
import { beatLevelFreeF } from "../../quality/metrics/beatLevelFreeF";
import { boundaryF } from "../../quality/metrics/boundaryF";
import { compareChords } from "../../quality/metrics/chordComparison";
import { fitSpans, mergeSpans } from "../../quality/metrics/chordSpans";
import { encodeChord, readableLabel } from "../../quality/metrics/harteEncoding";
import { homesScore } from "../../quality/metrics/homesScore";
import { weightedKeyScore } from "../../quality/metrics/keyScore";
import { chordSegments } from "../../quality/metrics/segmentation";
import { tempoScore } from "../../quality/metrics/tempoScore";
import { tuningErrorCents } from "../../quality/metrics/tuningError";

const sounding = (label: string) => encodeChord(label).semitones.flatMap((on, i) => (on === 1 ? [i] : []));
const span = (startSec: number, endSec: number, label: string) => ({ startSec, endSec, label });

// Worked from the definitions in Harte (2010) and the documentation of mir_eval.chord.
describe("chord labels", () => {
  it("are encoded as root, semitones and bass", () => {
    expect(encodeChord("D:min7/b3")).toMatchObject({ root: 2, bass: 3 });
    expect(sounding("D:min7/b3")).toEqual([0, 3, 7, 10]);
    expect(sounding("G")).toEqual([0, 4, 7]);
    expect(sounding("C:(1,5)")).toEqual([0, 7]);
    expect(sounding("C:maj(*3)")).toEqual([0, 7]);
    expect(sounding("C:maj(b7)")).toEqual([0, 4, 7, 10]);
    // A ninth lies outside of the octave; a foreign bass is added.
    expect(sounding("C:maj(9)")).toEqual([0, 4, 7]);
    expect(sounding("C:maj/2")).toEqual([0, 2, 4, 7]);
    expect(encodeChord("Cb:maj").root).toBe(11);
    expect(encodeChord("N").root).toBe(-1);
  });

  it("outside of the syntax count as X", () => {
    for (const label of ["H:maj", "C:major", "Cm", "", "C/", "C:maj(14)"])
      expect(readableLabel(label)).toBe("X");
    expect(readableLabel("A:min/b3")).toBe("A:min/b3");
  });

  it("are compared by metric", () => {
    expect(compareChords("C:maj7", "C:maj")).toMatchObject({
      majmin: true,
      sevenths: false,
      tetrads: false,
      mirex: true,
    });
    expect(compareChords("C:maj", "A:min7")).toMatchObject({ root: false, majmin: false, mirex: true });
    expect(compareChords("C:maj/3", "C:maj")).toMatchObject({ majmin: true, majmin_inv: false });
    expect(compareChords("C:sus4", "C:maj")).toMatchObject({ majmin: null, sevenths: null, root: true });
    expect(compareChords("N", "N")).toMatchObject({ root: true, majmin: true, mirex: true });
    expect(compareChords("X", "C:maj")).toMatchObject({ root: null, majmin: null, mirex: null });
    expect(compareChords("C:maj", "X")).toMatchObject({ root: false, majmin: false, mirex: false });
    expect(compareChords("C:5", "C:5").mirex).toBeNull();
  });

  it("are fitted to the span of the reference and merged", () => {
    const estimate = [span(1, 3, "C"), span(2, 5, "G"), span(6, 9, "F")];
    expect(fitSpans(estimate, 0, 7)).toEqual([
      span(0, 1, "N"),
      span(1, 3, "C"),
      span(3, 5, "G"),
      span(5, 6, "N"),
      span(6, 7, "F"),
    ]);
    expect(mergeSpans([span(0, 1, "C"), span(1, 2, "C"), span(3, 4, "C")])).toEqual([
      span(0, 2, "C"),
      span(3, 4, "C"),
    ]);
    expect(chordSegments([span(0, 1, "C"), span(1, 2, "C:maj"), span(2, 3, "C:7")]).length).toBe(2);
    expect(chordSegments([span(0, 1, "C:9"), span(1, 2, "C:7(9)")]).length).toBe(1);
  });

  it("change at boundaries within 150 ms", () => {
    const reference = [span(0, 1, "C"), span(1, 2, "G"), span(2, 3, "C")];
    expect(boundaryF(reference, [span(0, 1.14, "C"), span(1.14, 2.2, "G"), span(2.2, 3, "C")])).toBe(0.5);
    expect(boundaryF([span(0, 3, "C")], [span(0, 3, "G")])).toBe(1);
  });
});

describe("the other metrics", () => {
  it("weigh keys as MIREX does", () => {
    const g = { tonic: "G", mode: "major" };
    expect(weightedKeyScore(g, g)).toBe(1);
    expect(weightedKeyScore(g, { tonic: "D", mode: "major" })).toBe(0.5);
    expect(weightedKeyScore(g, { tonic: "C", mode: "major" })).toBe(0);
    expect(weightedKeyScore(g, { tonic: "E", mode: "minor" })).toBe(0.3);
    expect(weightedKeyScore({ tonic: "E", mode: "minor" }, g)).toBe(0.3);
    expect(weightedKeyScore(g, { tonic: "G", mode: "minor" })).toBe(0.2);
    expect(weightedKeyScore({ tonic: "C#", mode: "major" }, { tonic: "Db", mode: "major" })).toBe(1);
  });

  it("give homes their share of the time", () => {
    const home = (startSec: number, endSec: number, tonic: string) => ({
      startSec,
      endSec,
      tonic,
      mode: "major",
    });
    const reference = [home(0, 6, "G"), home(6, 10, "A")];
    expect(homesScore(reference, [home(0, 8, "G"), home(8, 20, "A")])).toBeCloseTo(0.8, 12);
    expect(homesScore(reference, [])).toBe(0);
  });

  it("forgive the metrical level where they say so", () => {
    const beats = [0, 1, 2, 3, 4, 5, 6, 7];
    const halved = beats.filter((_, i) => i % 2 === 1);
    expect(beatLevelFreeF(halved, beats)).toBe(1);
    expect(beatLevelFreeF(beats.slice(0, 7), [0, 2, 4, 6])).toBe(1);
    expect(tempoScore(120, 60)).toEqual({ exact: false, anyLevel: true });
    expect(tempoScore(120, 124)).toEqual({ exact: true, anyLevel: true });
    expect(tempoScore(120, 90)).toEqual({ exact: false, anyLevel: false });
    expect(tempoScore(120, 0)).toEqual({ exact: false, anyLevel: false });
  });

  it("measure tuning round the semitone", () => {
    expect(tuningErrorCents(45, -45)).toBeCloseTo(10, 12);
    expect(tuningErrorCents(-15, -12)).toBeCloseTo(3, 12);
    expect(tuningErrorCents(0, null)).toBe(50);
  });
});
