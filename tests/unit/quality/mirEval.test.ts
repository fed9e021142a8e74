import { describe, expect, it } from "vitest";
import { precisionRecall } from "@/lib/scoring/matching";
import { matchNotes } from "@/lib/scoring/noteMatching";
import { hertzToMidi } from "@/lib/units/pitch";
import { beatF } from "../../quality/metrics/beatF";
import { CHORD_METRICS } from "../../quality/metrics/chordComparison";
import { chordRecall } from "../../quality/metrics/chordRecall";
import { type ChordSpan, fitSpans } from "../../quality/metrics/chordSpans";
import { weightedKeyScore } from "../../quality/metrics/keyScore";
import { sectionScore } from "../../quality/metrics/sectionScore";
import { chordSegments, segmentation } from "../../quality/metrics/segmentation";
import { isTempoNear } from "../../quality/metrics/tempoScore";
import { FIXTURES, readColumns, readScores } from "./mirEvalFixtures";

const CLOSE = 1e-5;

function expectClose(name: string, ours: number, stored: number | undefined): void {
  expect(stored, name).toBeDefined();
  expect(Math.abs(ours - stored!), `${name}: ${ours} against ${stored}`).toBeLessThan(CLOSE);
}

function readChords(file: string): ChordSpan[] {
  return readColumns(file).map(([start, end, label]) => ({
    startSec: Number(start),
    endSec: Number(end),
    label: label!,
  }));
}

describe("the metrics agree with the scores stored by mir_eval", () => {
  it.each(FIXTURES)("chords %s", (index) => {
    const reference = readChords(`chord/ref${index}.lab`);
    const estimate = fitSpans(
      readChords(`chord/est${index}.lab`),
      reference[0]!.startSec,
      reference.at(-1)!.endSec,
    );
    const stored = readScores(`chord/output${index}.json`);
    const shares = chordRecall(reference, estimate);
    for (const metric of CHORD_METRICS) {
      const { rightSec, scoredSec } = shares[metric];
      expectClose(metric, scoredSec > 0 ? rightSec / scoredSec : 0, stored[metric]);
    }
    const segments = segmentation(chordSegments(reference), chordSegments(estimate));
    expectClose("overseg", segments.overseg, stored.overseg);
    expectClose("underseg", segments.underseg, stored.underseg);
    expectClose("seg", segments.seg, stored.seg);
  });

  it.each(FIXTURES)("key %s", (index) => {
    const read = (file: string) => {
      const [tonic, mode] = readColumns(file)[0]!;
      return { tonic: tonic!, mode: mode! };
    };
    const score = weightedKeyScore(read(`key/ref${index}.txt`), read(`key/est${index}.txt`));
    expectClose("key", score, readScores(`key/output${index}.json`)["Weighted Score"]);
  });

  it.each(FIXTURES)("beats %s", (index) => {
    // mir_eval leaves out the first five seconds.
    const read = (file: string) =>
      readColumns(file)
        .map(([time]) => Number(time))
        .filter((time) => time >= 5);
    const score = beatF(read(`beat/ref${index}.txt`), read(`beat/est${index}.txt`));
    expectClose("F", score, readScores(`beat/output${index}.json`)["F-measure"]);
  });

  it.each(FIXTURES)("notes %s", (index) => {
    const read = (file: string) =>
      readColumns(file).map(([start, end, hertz]) => ({
        startSec: Number(start),
        endSec: Number(end),
        midi: hertzToMidi(Number(hertz)),
      }));
    const reference = read(`transcription/ref${index}.txt`);
    const estimate = read(`transcription/est${index}.txt`);
    const hits = matchNotes(reference, estimate).filter((match) => match >= 0).length;
    const score = precisionRecall(hits, reference.length, estimate.length);
    const stored = readScores(`transcription/output${index}.json`);
    expectClose("F", score.f, stored["F-measure_no_offset"]);
    expectClose("precision", score.precision, stored.Precision_no_offset);
    expectClose("recall", score.recall, stored.Recall_no_offset);
  });

  it.each(FIXTURES)("sections %s", (index) => {
    const read = (file: string) =>
      readColumns(file).map(([start, end, ...label]) => ({
        startSec: Number(start),
        endSec: Number(end),
        label: label.join(" "),
      }));
    const score = sectionScore(read(`segment/ref${index}.lab`), read(`segment/est${index}.lab`));
    const stored = readScores(`segment/output${index}.json`);
    expectClose("precision within 0.5 s", score.boundariesNear.precision, stored["Precision@0.5"]);
    expectClose("recall within 0.5 s", score.boundariesNear.recall, stored["Recall@0.5"]);
    expectClose("F within 3 s", score.boundariesFar.f, stored["F-measure@3.0"]);
    expectClose("pairwise precision", score.pairwise.precision, stored["Pairwise Precision"]);
    expectClose("pairwise recall", score.pairwise.recall, stored["Pairwise Recall"]);
    expectClose("pairwise F", score.pairwise.f, stored["Pairwise F-measure"]);
  });

  // mir_eval has two tempi on each side and allows 8 % of each.
  it.each(FIXTURES.slice(0, 4))("tempi %s", (index) => {
    const read = (file: string) => readColumns(file)[0]!.map(Number);
    const [first, second, weight] = read(`tempo/ref${index}.lab`);
    const told = read(`tempo/est${index}.lab`).slice(0, 2);
    const [slow, fast] = [first!, second!].map((reference) =>
      told.some((estimate) => isTempoNear(reference, estimate, 0.08)),
    );
    const stored = readScores(`tempo/output${index}.json`);
    expectClose("P", (slow ? weight! : 0) + (fast ? 1 - weight! : 0), stored["P-score"]);
    expect(Boolean(slow || fast)).toBe(stored["One-correct"]);
    expect(Boolean(slow && fast)).toBe(stored["Both-correct"]);
  });
});
