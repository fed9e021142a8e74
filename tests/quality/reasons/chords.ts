import { median } from "@/lib/dsp/running";
import { matchedTimes } from "@/lib/scoring/matching";
import { BOUNDARY_WINDOW_SEC } from "../metrics/boundaryF";
import { type ChordMetric, compareChords } from "../metrics/chordComparison";
import { type ChordSpan, fitSpans, mergeSpans } from "../metrics/chordSpans";
import { encodeChord } from "../metrics/harteEncoding";
import { piecesOf } from "../metrics/pieces";
import { chordSegments, segmentation } from "../metrics/segmentation";
import type { Prediction } from "../prediction";
import type { Truth } from "../Subject";
import { chordsOf } from "../scoreItem";
import { addTo, largest, seconds } from "./words";

/** A chord of the neighbour within this of the change is a matter of when, not of which. */
const NEAR_CHANGE_SEC = 1;

/** What the time that is wrong by a metric was taken for. */
export function chordsReason(metric: ChordMetric, { chords }: Truth, prediction: Prediction): string {
  const reference = mergeSpans(chords!);
  const estimate = fitted(reference, prediction);
  const kinds = new Map<string, number>();
  let wrongSec = 0;
  for (const { startSec, endSec, reference: wanted, estimate: given } of piecesOf(reference, estimate)) {
    const label = given?.label ?? "N";
    if (compareChords(wanted.label, label)[metric] !== false) continue;
    wrongSec += endSec - startSec;
    const at = reference.indexOf(wanted);
    const isNeighbour = (other: ChordSpan | undefined) =>
      other !== undefined && compareChords(other.label, label)[metric] === true;
    let kind = confusion(wanted.label, label);
    if (isNeighbour(reference[at - 1]) && endSec - wanted.startSec < NEAR_CHANGE_SEC)
      kind = "changes heard late";
    else if (isNeighbour(reference[at + 1]) && wanted.endSec - startSec < NEAR_CHANGE_SEC)
      kind = "changes heard early";
    addTo(kinds, kind, endSec - startSec);
  }
  return `${seconds(wrongSec)} wrong: ${largest(kinds, seconds)}`;
}

/** Whether there are too many changes or too few, and whether they stand late or early. */
export function segmentsReason({ chords }: Truth, prediction: Prediction): string {
  const reference = chordSegments(chords!);
  const estimate = chordSegments(fitted(reference, prediction));
  const { overseg, underseg } = segmentation(reference, estimate);
  const what = overseg < underseg ? "changes cut up" : "overlong changes";
  const lags = reference.slice(1).flatMap(({ startSec }) => {
    const near = estimate.slice(1).map((span) => span.startSec - startSec);
    const nearest = near.reduce(
      (best, lag) => (Math.abs(lag) < Math.abs(best) ? lag : best),
      NEAR_CHANGE_SEC,
    );
    return Math.abs(nearest) < NEAR_CHANGE_SEC ? [nearest] : [];
  });
  const usual = lags.length > 0 ? Math.round(median(lags) * 1000) : 0;
  const when =
    Math.abs(usual) >= 50 ? `; they stand ${Math.abs(usual)} ms ${usual > 0 ? "late" : "early"}` : "";
  if (estimate.length === reference.length) {
    const starts = (spans: readonly ChordSpan[]) => spans.slice(1).map(({ startSec }) => startSec);
    const near = matchedTimes(starts(reference), starts(estimate), BOUNDARY_WINDOW_SEC);
    return `changes at other times: ${near} of ${reference.length - 1} within ${BOUNDARY_WINDOW_SEC * 1000} ms${when}`;
  }
  return `${what}: ${estimate.length} told where there are ${reference.length}${when}`;
}

function fitted(reference: readonly ChordSpan[], prediction: Prediction): ChordSpan[] {
  return fitSpans(chordsOf(prediction), reference[0]!.startSec, reference.at(-1)!.endSec);
}

/** One chord taken for another, in words. */
export function confusion(reference: string, estimate: string): string {
  const [wanted, given] = [encodeChord(reference), encodeChord(estimate)];
  if (given.root < 0) return "no chord heard where there is one";
  if (wanted.root < 0) return "a chord heard where there is none";
  if (wanted.root === given.root) {
    const [from, to] = [family(wanted.semitones), family(given.semitones)];
    if (from !== to) return `${from} heard as ${to}`;
    return given.bass === 0
      ? "inversions not heard"
      : wanted.bass === 0
        ? "inversions made up"
        : "another bass";
  }
  const up = (given.root - wanted.root + 12) % 12;
  const [minor, otherMinor] = [wanted.semitones[3] === 1, given.semitones[3] === 1];
  if (minor !== otherMinor && up === (minor ? 3 : 9)) return "relative chord";
  if (up === 7) return "chord a fifth above";
  if (up === 5) return "chord a fifth below";
  if (up === 4 || up === 3) return "chord a third above";
  if (up === 8 || up === 9) return "chord a third below";
  return "chord on another root";
}

function family(semitones: readonly number[]): string {
  const has = (semitone: number) => semitones[semitone] === 1;
  if (!has(3) && !has(4)) return "suspended or bare chords";
  if (has(4) && has(8)) return "augmented chords";
  if (has(3) && has(6) && !has(7)) return "diminished chords";
  const mode = has(4) ? "major" : "minor";
  if (has(11)) return `${mode} chords with the major seventh`;
  if (has(10)) return has(4) ? "sevenths" : "minor sevenths";
  return has(9) ? `${mode} sixths` : mode;
}
