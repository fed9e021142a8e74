import { matchNotes } from "@/lib/scoring/noteMatching";
import { judgedFits } from "./fit/scoreFits";
import { beatF } from "./metrics/beatF";
import { type ChordMetric, compareChords } from "./metrics/chordComparison";
import { type ChordSpan, mergeSpans } from "./metrics/chordSpans";
import { readableLabel } from "./metrics/harteEncoding";
import { weightedKeyScore } from "./metrics/keyScore";
import { piecesOf } from "./metrics/pieces";
import type { Judgement } from "./metrics/reliability";
import { tuningErrorCents } from "./metrics/tuningError";
import type { Prediction } from "./prediction";
import type { Subject, Truth } from "./Subject";
import { beatsWithin } from "./scoreItem";
import { wholeRecord } from "./wholeRecord";

/** What certainties are said of, in the order of the report, and what each judgement weighs. */
export const CERTAINTIES = {
  tuning: "records",
  beats: "records",
  bars: "records",
  barsIfBeatsRight: "records",
  meter: "records",
  home: "s",
  homeNextBest: "s",
  chordsMajmin: "s",
  chordsSevenths: "s",
  chordsNextBest: "s",
  changesMajmin: "changes",
  changesSevenths: "changes",
  bass: "notes",
  sections: "sections",
  fitNotes: "guesses",
  fitPairs: "guesses",
  fitMoreNotes: "guesses",
  fitChords: "guesses",
  fitKeys: "guesses",
} as const;
export type CertaintyName = keyof typeof CERTAINTIES;
export type Judgements = Partial<Record<CertaintyName, Judgement[]>>;

const WITHIN_CENTS = 5;
/** From this F on the beats, or the downbeats, of a record are called right. */
const RIGHT_FROM_F = 0.9;

function once(said: number, right: boolean): Judgement[] {
  return [{ said, right, weight: 1 }];
}

/** Everything said of a record with a certainty, judged by what is known of it. */
export function judge({ truth }: Subject, prediction: Prediction): Judgements {
  const { hearing } = prediction;
  const judged: Judgements = {};
  if (truth.tuningCents !== undefined) {
    const error = tuningErrorCents(truth.tuningCents, hearing.tuningCents);
    judged.tuning = once(hearing.tuningConfidence, error <= WITHIN_CENTS);
  }
  if (truth.beats) Object.assign(judged, judgeGrid(truth, truth.beats, prediction));
  const homes = truth.homes ?? (truth.key && wholeRecord(truth.key));
  if (homes) {
    const pieces = piecesOf(
      homes.map((home) => ({ ...home, endSec: Math.min(home.endSec, hearing.durationSec) })),
      hearing.homes,
    );
    const guessed = (of: "first" | "next") =>
      pieces.flatMap(({ startSec, endSec, reference, estimate }) => {
        const guesses = !estimate ? [] : of === "first" ? [estimate] : estimate.nextBest;
        return guesses.map((guess) => ({
          said: guess.confidence,
          right: weightedKeyScore(reference, guess) === 1,
          weight: endSec - startSec,
        }));
      });
    judged.home = guessed("first");
    judged.homeNextBest = guessed("next");
  }
  if (truth.chords) Object.assign(judged, judgeChords(truth.chords, prediction));
  if (truth.bass) {
    const matches = matchNotes(truth.bass, hearing.bass);
    judged.bass = hearing.bass.map(({ confidence }, i) => ({
      said: confidence,
      right: matches[i]! >= 0,
      weight: 1,
    }));
  }
  if (truth.sections) judged.sections = judgeSections(truth.sections, prediction);
  Object.assign(judged, judgedFits(prediction.fits));
  return judged;
}

function judgeGrid(
  truth: Truth,
  reference: NonNullable<Truth["beats"]>,
  { hearing, beats, downbeats }: Prediction,
): Judgements {
  const { beatsConfidence, barsConfidence, beatsPerBar } = hearing.grid;
  const marked = reference.map(({ timeSec }) => timeSec);
  const bars = reference.filter(({ inBar }) => inBar === 1).map(({ timeSec }) => timeSec);
  const beatsRight = beatF(marked, beatsWithin(reference, beats)) > RIGHT_FROM_F;
  const barsRight = beatF(bars, beatsWithin(reference, downbeats)) > RIGHT_FROM_F;
  return {
    beats: once(beatsConfidence, beatsRight),
    // The bars are said to be right if the beats are, so that both together are what is said of the bars.
    bars: once(beatsConfidence * barsConfidence, barsRight),
    ...(beatsRight ? { barsIfBeatsRight: once(barsConfidence, barsRight) } : {}),
    ...(truth.beatsPerBar
      ? { meter: once(beatsConfidence * barsConfidence, beatsPerBar === truth.beatsPerBar) }
      : {}),
  };
}

function judgeChords(reference: readonly ChordSpan[], { hearing }: Prediction): Judgements {
  const pieces = piecesOf(mergeSpans(reference), hearing.chords);
  const bySecond = (metric: ChordMetric, of: "first" | "next") =>
    pieces.flatMap(({ startSec, endSec, reference: wanted, estimate }) => {
      const guesses = !estimate ? [] : of === "first" ? [estimate] : estimate.nextBest;
      return guesses.flatMap(({ label, confidence }) => {
        const right = compareChords(wanted.label, readableLabel(label))[metric];
        return right === null ? [] : [{ said: confidence, right, weight: endSec - startSec }];
      });
    });
  const byChange = (metric: ChordMetric) =>
    hearing.chords.flatMap((chord): Judgement[] => {
      let [right, scored] = [0, 0];
      for (const piece of pieces) {
        if (piece.estimate !== chord) continue;
        const verdict = compareChords(piece.reference.label, readableLabel(chord.label))[metric];
        if (verdict === null) continue;
        scored += piece.endSec - piece.startSec;
        if (verdict) right += piece.endSec - piece.startSec;
      }
      // A change is right where it is so for most of its time.
      return scored > 0 ? [{ said: chord.confidence, right: right > scored / 2, weight: 1 }] : [];
    });
  return {
    chordsMajmin: bySecond("majmin", "first"),
    chordsSevenths: bySecond("sevenths", "first"),
    chordsNextBest: bySecond("sevenths", "next"),
    changesMajmin: byChange("majmin"),
    changesSevenths: byChange("sevenths"),
  };
}

/** A section that repeats is right where it lies mostly on music of one name with the first; a first one where none before does. */
function judgeSections(reference: readonly ChordSpan[], { hearing }: Prediction): Judgement[] {
  const { sections } = hearing;
  const mostly = sections.map((section) => {
    const seconds = new Map<string, number>();
    for (const piece of piecesOf(reference, [section])) {
      if (!piece.estimate) continue;
      const { label } = piece.reference;
      seconds.set(label, (seconds.get(label) ?? 0) + piece.endSec - piece.startSec);
    }
    return [...seconds].sort((a, b) => b[1] - a[1])[0]?.[0];
  });
  return sections.flatMap(({ label, confidence }, i) => {
    if (mostly[i] === undefined) return [];
    const first = sections.findIndex((other) => other.label === label);
    const right = first < i ? mostly[first] === mostly[i] : !mostly.slice(0, i).includes(mostly[i]);
    return [{ said: confidence, right, weight: 1 }];
  });
}
