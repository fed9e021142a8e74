import { noteScore } from "@/lib/scoring/noteScore";
import type { ScoredNote } from "@/lib/scoring/scoredNote";
import { scoreFits } from "./fit/scoreFits";
import { beatF } from "./metrics/beatF";
import { beatLevelFreeF } from "./metrics/beatLevelFreeF";
import { boundaryF } from "./metrics/boundaryF";
import { chordRecall, type Share } from "./metrics/chordRecall";
import { type ChordSpan, fitSpans } from "./metrics/chordSpans";
import { readableLabel } from "./metrics/harteEncoding";
import { type HomeSpan, homesScore } from "./metrics/homesScore";
import { weightedKeyScore } from "./metrics/keyScore";
import { octaveFreeF } from "./metrics/octaveFreeF";
import { sectionScore } from "./metrics/sectionScore";
import { chordSegments, segmentation } from "./metrics/segmentation";
import { tempoScore } from "./metrics/tempoScore";
import { tuningErrorCents } from "./metrics/tuningError";
import type { Prediction } from "./prediction";
import type { Subject, Truth } from "./Subject";
import { scoreNotes, scoreSteel } from "./scoreNotes";
import { wholeRecord } from "./wholeRecord";
import { chordsWithinThree, homeWithinThree } from "./withinThree";

/** All scores of one record; a metric that it is not scored on is missing. */
export interface ItemScore {
  id: string;
  group: string;
  /** Single figures, by the name of the metric. */
  values: Partial<Record<string, number>>;
  /** Figures that are shares of the time, over all records together. */
  shares: Partial<Record<string, Share>>;
  /** Labels outside of Harte syntax; each counts as wrong. */
  badLabels: number;
}

/** What the ear tells of at all; what it does not is not scored, which is told apart from scoring zero. */
export interface Tells {
  notes: boolean;
  bass: boolean;
  sections: boolean;
  nextBest: boolean;
}

/** Beats this far outside of the marked ones are not asked for. */
const BEAT_MARGIN_SEC = 0.1;

/**
 * Scores what was heard of a record against what is known of it.
 * @param prediction null where it could not be heard: it then scores zero on everything
 */
export function scoreItem(subject: Subject, prediction: Prediction | null, tells: Tells): ItemScore {
  const { id, group, durationSec, truth } = subject;
  const score: ItemScore = { id, group, values: {}, shares: {}, badLabels: 0 };
  const { values } = score;
  if (truth.tuningCents !== undefined)
    values.tuneErr = tuningErrorCents(truth.tuningCents, prediction?.tuningCents ?? null);
  if (truth.key) {
    values.key = prediction ? weightedKeyScore(truth.key, prediction.key) : 0;
    values.keyExact = values.key === 1 ? 1 : 0;
  }
  if (truth.homes) {
    values.homes = homesScore(truth.homes, homesOf(prediction));
    if (truth.homes.length > 1) values.homesChange = values.homes;
  }
  if (truth.beats) Object.assign(values, scoreBeats(truth, truth.beats, prediction));
  if (truth.chords) scoreChords(score, truth.chords, prediction);
  if (tells.nextBest) Object.assign(score.shares, withinThree(truth, prediction));
  if (truth.bass && tells.bass) {
    const { precision, recall, f } = noteScore(truth.bass, prediction?.hearing.bass ?? [], {
      startSec: 0,
      endSec: durationSec,
    });
    const bassFOctaveFree = octaveFreeF(truth.bass, prediction?.hearing.bass ?? []);
    Object.assign(values, { bassP: precision, bassR: recall, bassF: f, bassFOctaveFree });
  }
  if (truth.sections && tells.sections) {
    const { boundariesNear, boundariesFar, pairwise } = sectionScore(
      truth.sections,
      prediction?.hearing.sections ?? [],
    );
    const [near, far, pairs] = prediction ? [boundariesNear.f, boundariesFar.f, pairwise.f] : [0, 0, 0];
    Object.assign(values, { sectionF05: near, sectionF3: far, sectionPairF: pairs });
  }
  if (tells.notes) scorePassage(values, truth, prediction);
  Object.assign(values, scoreFits(prediction?.fits ?? []));
  return score;
}

export function homesOf(prediction: Prediction | null): HomeSpan[] {
  return (prediction?.homes ?? []).map(({ start, end, tonic, mode }) => ({
    startSec: start,
    endSec: end,
    tonic,
    mode,
  }));
}

/** The beats told about where beats are marked. */
export function beatsWithin(marked: readonly { timeSec: number }[], times: readonly number[]): number[] {
  const from = marked[0]!.timeSec - BEAT_MARGIN_SEC;
  const to = marked.at(-1)!.timeSec + BEAT_MARGIN_SEC;
  return times.filter((time) => from <= time && time <= to).sort((a, b) => a - b);
}

function scoreBeats(
  truth: Truth,
  reference: NonNullable<Truth["beats"]>,
  prediction: Prediction | null,
): Record<string, number> {
  const times = reference.map(({ timeSec }) => timeSec);
  const downbeats = reference.filter(({ inBar }) => inBar === 1).map(({ timeSec }) => timeSec);
  const beats = beatsWithin(reference, prediction?.beats ?? []);
  const values: Record<string, number> = {
    beatF: beatF(times, beats),
    beatLevelFree: beatLevelFreeF(times, beats),
    downbeatF: beatF(downbeats, beatsWithin(reference, prediction?.downbeats ?? [])),
  };
  if (truth.beatsPerBar) values.meterExact = prediction?.meter === truth.beatsPerBar ? 1 : 0;
  if (truth.division) values.divisionExact = prediction?.hearing.grid.division === truth.division ? 1 : 0;
  if (truth.tempoBpm) {
    const tempo = tempoScore(truth.tempoBpm, prediction?.tempo ?? 0);
    Object.assign(values, { tempo4: tempo.exact ? 1 : 0, tempoOct: tempo.anyLevel ? 1 : 0 });
  }
  return values;
}

/** The chords told, those that cannot be read as `X`. */
export function chordsOf(prediction: Prediction | null): ChordSpan[] {
  return (prediction?.chords ?? []).map(({ start, end, label }) => ({
    startSec: start,
    endSec: end,
    label: readableLabel(label),
  }));
}

function scoreChords(score: ItemScore, reference: readonly ChordSpan[], prediction: Prediction | null): void {
  const given = chordsOf(prediction);
  score.badLabels = (prediction?.chords ?? []).filter(({ label }, i) => label !== given[i]!.label).length;
  const estimate = fitSpans(given, reference[0]!.startSec, reference.at(-1)!.endSec);
  Object.assign(score.shares, chordRecall(reference, estimate));
  const [wanted, found] = [chordSegments(reference), chordSegments(estimate)];
  const { overseg, underseg, seg } = segmentation(wanted, found);
  Object.assign(score.values, { overseg, underseg, seg, boundaryF150: boundaryF(wanted, found) });
}

function withinThree(truth: Truth, prediction: Prediction | null): ItemScore["shares"] {
  const shares: ItemScore["shares"] = {};
  if (truth.chords) {
    const chords = prediction?.hearing.chords ?? [];
    shares.majminWithin3 = chordsWithinThree(truth.chords, chords, "majmin");
    shares.seventhsWithin3 = chordsWithinThree(truth.chords, chords, "sevenths");
  }
  const homes = truth.homes ?? (truth.key && wholeRecord(truth.key));
  if (homes) shares.homeWithin3 = homeWithinThree(homes, prediction?.hearing.homes ?? []);
  return shares;
}

function scorePassage(values: ItemScore["values"], truth: Truth, prediction: Prediction | null): void {
  if (!truth.passage) return;
  // A record that could not be heard is scored as if no note had been.
  const heard = prediction ? prediction.notes : ([] as ScoredNote[]);
  if (!heard) return;
  const shift = (truth.tuningCents ?? 0) / 100;
  const { span, notes, scoresAll, glides } = truth.passage;
  if (scoresAll) Object.assign(values, scoreNotes(notes, heard, span, shift));
  if (glides) Object.assign(values, scoreSteel(notes, glides, heard, span, shift));
}
