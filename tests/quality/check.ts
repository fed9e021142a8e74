import { type Evaluation, evaluate } from "./evaluate";
import { checkCalibration } from "./fit/checkCalibration";
import { fitsByWeights } from "./fit/leftOutFits";
import { FIT_CALIBRATION, FLOORS } from "./floors";
import { findItemSets } from "./itemSets";
import type { QualityCheck } from "./QualityCheck";
import { reportLines } from "./reportLines";
import { figureOf } from "./summary";

function checksOf({ set, all, failures, cases }: Evaluation): QualityCheck[] {
  const floors = (FLOORS[set] ?? []).map(({ metric, atLeast, says }): QualityCheck => {
    const figure = figureOf(all.figures, metric);
    return {
      name: `set ${set}: ${says}`,
      passed: figure !== undefined && figure.value >= atLeast,
      detail: figure
        ? `${figure.value.toFixed(4)} of at least ${atLeast} (${figure.itemCount} records)`
        : "nothing was scored on it",
    };
  });
  const bounds = FIT_CALIBRATION[set];
  const calibration = bounds ? checkCalibration(set, fitsByWeights(cases).leftOut, bounds) : [];
  const badLabels = cases.reduce((sum, { score }) => sum + score.badLabels, 0);
  return [
    ...floors,
    ...calibration,
    {
      name: `set ${set}: every record is heard`,
      passed: failures.length === 0,
      detail:
        failures.length === 0
          ? `${cases.length} records`
          : failures.map(({ id, fault }) => `${id}: ${fault}`).join("; "),
    },
    {
      name: `set ${set}: every chord label is in Harte syntax`,
      passed: badLabels === 0,
      detail: `${badLabels} outside of it`,
    },
  ];
}

/** Hears the repository's own songs, and the sets of the evaluation folder where it is at hand, and checks the floors. */
export async function checkQuality(): Promise<QualityCheck[]> {
  const { evaluation, own } = findItemSets();
  if (evaluation.length === 0)
    console.log("There is no evaluation folder: only the repository's own songs are heard.");
  const checks: QualityCheck[] = [];
  for (const set of [own, ...evaluation]) {
    const result = await evaluate(set);
    for (const line of reportLines(result)) console.log(line);
    checks.push(...checksOf(result));
  }
  return checks;
}
