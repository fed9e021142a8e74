import type { Evaluation, Group } from "./evaluate";
import { fitsByWeights } from "./fit/leftOutFits";
import { CERTAINTIES } from "./judgements";
import { figureOf, METRICS } from "./summary";
import { ownValue } from "./worst";

/** What is said of a metric that nothing was scored on. */
function whyMissing(metric: string, { tells }: Evaluation): string {
  if (/^(bass)/.test(metric) && !tells.bass) return "not scored: this ear tells of no bass line";
  if (/^section/.test(metric) && !tells.sections) return "not scored: this ear tells of no sections";
  if (/Within3$/.test(metric) && !tells.nextBest) return "not scored: this ear tells no next-best guesses";
  if (/^(note|slide|lead|dyad|glide)/.test(metric) && !tells.notes)
    return "not scored: this ear hears no notes";
  return "not scored: no record is annotated with it";
}

/** A table, a metric a line: `set metric value (n)`, all records together, then group by group; `-` where none is scored. */
function tableLines(evaluation: Evaluation): string[] {
  const { set, all, groups } = evaluation;
  const metricWidth = Math.max(...METRICS.map((metric) => metric.length));
  const widths = groups.map(({ group }) => Math.max(7, group.length));
  const cells = (values: readonly string[]) =>
    values.map((value, i) => value.padStart(widths[i]!)).join("  ");
  const start = (metric: string) => `${set} ${metric.padEnd(metricWidth)}`;
  const row = (metric: string) => {
    const figure = figureOf(all.figures, metric);
    if (!figure) return null;
    const each = groups.map((group) => figureOf(group.figures, metric)?.value.toFixed(4) ?? "-");
    const count = `(${figure.itemCount})`.padEnd(5);
    return `${start(metric)} ${figure.value.toFixed(4).padStart(7)} ${count} ${cells(each)}`;
  };
  const missing = new Map<string, string[]>();
  const rows = METRICS.flatMap((metric) => {
    const line = row(metric);
    if (line !== null) return [line];
    const why = whyMissing(metric, evaluation);
    missing.set(why, [...(missing.get(why) ?? []), metric]);
    return [];
  });
  return [
    `${start("metric")} ${"all".padStart(7)} ${"(n)".padEnd(5)} ${cells(groups.map(({ group }) => group))}`,
    ...rows,
    speedLine(start("cpuSecPerMinute"), all, groups, cells),
    ...[...missing].map(([why, metrics]) => `${set} ${metrics.join(", ")}: ${why}`),
  ];
}

/** Work of one thread a minute of record: a measurement of this machine, and never a floor. */
function speedLine(
  start: string,
  all: Group,
  groups: readonly Group[],
  cells: (values: readonly string[]) => string,
): string {
  if (all.cpuSecPerMinute === null)
    return `${start} not measured: this machine does not tell a thread's work`;
  const each = groups.map(({ cpuSecPerMinute }) => cpuSecPerMinute?.toFixed(2) ?? "-");
  return `${start} ${all.cpuSecPerMinute.toFixed(2).padStart(7)} ${"".padEnd(5)} ${cells(each)}`;
}

/** As short as it can be told in thousandths. */
function edge(certainty: number): string {
  return String(Number(certainty.toFixed(3)));
}

/** Said against right, a bin a line, and each certainty's errors. */
function reliabilityLines({ set, certainties }: Evaluation): string[] {
  return certainties.flatMap(({ name, reliability }) => {
    const unit = CERTAINTIES[name];
    const amount = (weight: number) => {
      if (unit === "s") return `${weight.toFixed(1)} s`;
      return `${Number(weight.toFixed(1))} ${weight === 1 ? unit.slice(0, -1) : unit}`;
    };
    const { bins, expectedCalibrationError: error, brier, weight } = reliability;
    return [
      ...bins.map(
        ({ from, to, said, right, weight: inBin }) =>
          `${set} reliability ${name} ${edge(from)}-${edge(to)} said ${said.toFixed(3)} right ${right.toFixed(3)} (${amount(inBin)})`,
      ),
      `${set} reliability ${name} expected calibration error ${error.toFixed(3)}, Brier ${brier.toFixed(3)} (${amount(weight)})`,
    ];
  });
}

/** By which weights the fits were judged. */
function fitWeightsLine({ set, cases }: Evaluation): string {
  const { leftOutCount, shippedCount } = fitsByWeights(cases);
  return `${set} fit of ${leftOutCount} records by weights that were fitted without them, of ${shippedCount} that no fitting knows by those that ship`;
}

/** The whole report of a set: the table, what could not be heard, the worst records, then the reliability. */
export function reportLines(evaluation: Evaluation): string[] {
  const { set, failures, worst } = evaluation;
  return [
    ...tableLines(evaluation),
    ...failures.map(({ id, fault }) => `${set} FAILED ${id}: ${fault} (scored zero)`),
    ...worst.flatMap(({ metric, items }) =>
      items.map(({ id, value, reason }) => `${set} worst ${metric} ${value.toFixed(3)} ${id}: ${reason}`),
    ),
    ...reliabilityLines(evaluation),
    fitWeightsLine(evaluation),
  ];
}

/** One line for each record, with its main figures. */
export function itemLines({ set, cases }: Evaluation): string[] {
  return cases.map((one) => {
    const { id, values, badLabels } = one.score;
    const shown = {
      ...Object.fromEntries(
        ["majmin", "majmin_inv", "sevenths"].map((metric) => [metric, ownValue(one, metric)]),
      ),
      ...values,
      ...(badLabels > 0 ? { badLabels } : {}),
    };
    const parts = Object.entries(shown).flatMap(([name, value]) =>
      value === undefined ? [] : [`${name} ${Number(value.toFixed(4))}`],
    );
    return `${set}:${id} ${parts.join(", ")}`;
  });
}
