import { readBeats, readChords, readGlides, readNotes } from "./annotations";
import type { Item } from "./items";
import { beatF } from "./metrics/beatF";
import { beatLevelFreeF } from "./metrics/beatLevelFreeF";
import { boundaryF } from "./metrics/boundaryF";
import type { ChordMetric } from "./metrics/chordComparison";
import { chordRecall, type Share } from "./metrics/chordRecall";
import { fitSpans } from "./metrics/chordSpans";
import { readableLabel } from "./metrics/harteEncoding";
import { homesScore } from "./metrics/homesScore";
import { weightedKeyScore } from "./metrics/keyScore";
import { chordSegments, segmentation } from "./metrics/segmentation";
import { tempoScore } from "./metrics/tempoScore";
import { tuningErrorCents } from "./metrics/tuningError";
import type { PredictedNote, Prediction } from "./prediction";
import { scoreBass } from "./scoreBass";
import { type SteelScore, scoreNotes, scoreSteel } from "./scoreNotes";

/** All scores of one item; a metric that the item is not scored on is missing. */
export interface ItemScore {
  id: string;
  group: string;
  /** Single figures, by the name of the metric. */
  values: Partial<Record<string, number>>;
  chords: Record<ChordMetric, Share> | null;
  /** Labels outside of Harte syntax; each counts as wrong. */
  badLabels: number;
}

/** Beats this far outside of the marked ones are not asked for. */
const BEAT_MARGIN_SEC = 0.1;

/**
 * Scores what was heard of an item against its annotations.
 * @param prediction null where the item could not be heard: it then scores zero on everything
 */
export function scoreItem(item: Item, folder: string, prediction: Prediction | null): ItemScore {
  const score: ItemScore = { id: item.id, group: item.group, values: {}, chords: null, badLabels: 0 };
  const { values } = score;
  const has = (task: Item["tasks"][number]) => item.tasks.includes(task);
  if (has("tuning") && typeof item.tuningCents === "number") {
    values.tuneErr = tuningErrorCents(item.tuningCents, prediction?.tuningCents ?? null);
  }
  if (has("key") && item.key) {
    values.key = prediction ? weightedKeyScore(item.key, prediction.key) : 0;
    values.keyExact = values.key === 1 ? 1 : 0;
  }
  if (has("homes") && item.homes) {
    values.homes = scoreHomes(item.homes, prediction);
    if (item.homes.length > 1) values.homesChange = values.homes;
  }
  if (has("beats") && item.beats) Object.assign(values, scoreBeats(item, folder, prediction));
  if (has("chords") && item.chords) scoreChords(score, readChords(folder, item.chords), prediction);
  if (has("notes") && item.notes) {
    const bass = (prediction?.bass ?? []).map(({ start, end, midi }) => ({
      startSec: start,
      endSec: end,
      midi,
    }));
    Object.assign(values, scoreBass(readNotes(folder, item.notes), bass));
  }
  if (item.notes && item.notePassage) {
    const [startSec, endSec] = item.notePassage;
    const passage = { startSec, endSec };
    // An item that could not be heard is scored as if no note had been.
    const notes = prediction ? prediction.notes : ([] as PredictedNote[]);
    if (notes) {
      const shift = (item.tuningCents ?? 0) / 100;
      const reference = readNotes(folder, item.notes);
      if (has("notes")) Object.assign(values, scoreNotes(reference, notes, passage, shift));
      if (has("steel") && item.steel) {
        const steel: SteelScore = scoreSteel(
          reference,
          readGlides(folder, item.steel),
          notes,
          passage,
          shift,
        );
        Object.assign(values, steel);
      }
    }
  }
  return score;
}

function scoreHomes(reference: NonNullable<Item["homes"]>, prediction: Prediction | null): number {
  const spans = (homes: NonNullable<Item["homes"]>) =>
    homes.map(({ start, end, tonic, mode }) => ({ startSec: start, endSec: end, tonic, mode }));
  return homesScore(spans(reference), spans(prediction?.homes ?? []));
}

function scoreBeats(item: Item, folder: string, prediction: Prediction | null): Record<string, number> {
  const reference = readBeats(folder, item.beats!);
  const times = reference.map(({ timeSec }) => timeSec);
  const downbeats = reference.filter(({ inBar }) => inBar === 1).map(({ timeSec }) => timeSec);
  const from = times[0]! - BEAT_MARGIN_SEC;
  const to = times.at(-1)! + BEAT_MARGIN_SEC;
  const within = (list: readonly number[]) => list.filter((time) => from <= time && time <= to);
  const beats = within([...(prediction?.beats ?? [])].sort((a, b) => a - b));
  const tempo = tempoScore(item.tempoBpm ?? 0, prediction?.tempo ?? 0);
  return {
    beatF: beatF(times, beats),
    beatLevelFree: beatLevelFreeF(times, beats),
    downbeatF: beatF(downbeats, within(prediction?.downbeats ?? [])),
    tempo4: tempo.exact ? 1 : 0,
    tempoOct: tempo.anyLevel ? 1 : 0,
  };
}

function scoreChords(
  score: ItemScore,
  reference: ReturnType<typeof readChords>,
  prediction: Prediction | null,
): void {
  const given = (prediction?.chords ?? []).map(({ start, end, label }) => {
    const readable = readableLabel(label);
    if (readable !== label) score.badLabels += 1;
    return { startSec: start, endSec: end, label: readable };
  });
  const estimate = fitSpans(given, reference[0]!.startSec, reference.at(-1)!.endSec);
  score.chords = chordRecall(reference, estimate);
  const [wanted, found] = [chordSegments(reference), chordSegments(estimate)];
  const { overseg, underseg, seg } = segmentation(wanted, found);
  Object.assign(score.values, { overseg, underseg, seg, boundaryF150: boundaryF(wanted, found) });
}
