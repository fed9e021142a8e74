import { hearItems } from "./hearItems";
import type { Item, ItemSet } from "./items";
import type { Outcome } from "./prediction";
import { type ItemScore, scoreItem } from "./scoreItem";
import { type Figure, summarise } from "./summary";

/** What came of a set. */
export interface Evaluation {
  set: string;
  scores: ItemScore[];
  all: Figure[];
  groups: { group: string; figures: Figure[] }[];
  /** Items that could not be heard, and why; they score zero. */
  failures: { id: string; fault: string }[];
  /** Whether the ear gave notes for any item; where it gives none, notes are not scored. */
  hearsNotes: boolean;
  audioSec: number;
  computeSec: number;
}

/** Hears a set and scores it. */
export async function evaluate(
  set: ItemSet,
  onHeard?: (item: Item, outcome: Outcome, doneCount: number) => void,
): Promise<Evaluation> {
  const outcomes = await hearItems(set, onHeard);
  const failures: Evaluation["failures"] = [];
  let hearsNotes = false;
  let computeSec = 0;
  for (const [id, outcome] of outcomes) {
    computeSec += outcome.computeSec;
    if ("fault" in outcome) failures.push({ id, fault: outcome.fault });
    else if (outcome.prediction.notes) hearsNotes = true;
  }
  const scores = set.items.map((item) => {
    const outcome = outcomes.get(item.id);
    return scoreItem(item, set.folder, outcome && "prediction" in outcome ? outcome.prediction : null);
  });
  const groups = [...new Set(scores.map(({ group }) => group))].map((group) => ({
    group,
    figures: summarise(scores.filter((score) => score.group === group)),
  }));
  return {
    set: set.name,
    scores,
    all: summarise(scores),
    groups,
    failures,
    hearsNotes,
    audioSec: set.items.reduce((sum, { durationSec }) => sum + durationSec, 0),
    computeSec,
  };
}
