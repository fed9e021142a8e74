import { type Evaluation, evaluate } from "./evaluate";
import { findItemSets } from "./itemSets";
import { reportLines } from "./reportLines";
import { figureOf } from "./summary";

export interface QualityCheck {
  name: string;
  passed: boolean;
  detail: string;
}

/** The least that every change must keep, over all items of the first set. */
const FLOORS = [
  { metric: "majmin", atLeast: 0.6, says: "right major or minor chord, share of the time" },
  { metric: "keyExact", atLeast: 0.5, says: "right key, share of the songs with one annotated" },
] as const;

function checksOf({ set, all, failures, scores }: Evaluation): QualityCheck[] {
  const floors = FLOORS.map(({ metric, atLeast, says }): QualityCheck => {
    const figure = figureOf(all, metric);
    return {
      name: `set ${set}: ${says}`,
      passed: figure !== undefined && figure.value >= atLeast,
      detail: figure
        ? `${figure.value.toFixed(4)} of at least ${atLeast} (${figure.itemCount} items)`
        : "no item is annotated with it",
    };
  });
  const badLabels = scores.reduce((sum, score) => sum + score.badLabels, 0);
  return [
    ...floors,
    {
      name: `set ${set}: every record is heard`,
      passed: failures.length === 0,
      detail:
        failures.length === 0
          ? `${scores.length} records`
          : failures.map(({ id, fault }) => `${id}: ${fault}`).join("; "),
    },
    {
      name: `set ${set}: every chord label is in Harte syntax`,
      passed: badLabels === 0,
      detail: `${badLabels} outside of it`,
    },
  ];
}

/** Hears set A, or the repository's own recordings where no evaluation folder is at hand, and checks the floors. */
export async function checkQuality(): Promise<QualityCheck[]> {
  const { origin, sets } = findItemSets();
  console.log(`Hearing ${origin}.`);
  const evaluation = await evaluate(sets[0]!);
  for (const line of reportLines(evaluation)) console.log(line);
  return checksOf(evaluation);
}
