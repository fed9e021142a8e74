import { reliability } from "../metrics/reliability";
import type { JudgedFit } from "./judgeFit";

function share(verdicts: readonly JudgedFit[], wins: (verdict: JudgedFit) => boolean): string {
  return (verdicts.filter(wins).length / verdicts.length).toFixed(3);
}

/** How often the right guess wins and how far the numbers can be relied upon, by kind and by player. */
export function verdictLines(verdicts: readonly JudgedFit[]): string[] {
  const groups = new Map<string, JudgedFit[]>();
  for (const verdict of verdicts) {
    const names = [
      verdict.kind,
      ...(verdict.role === null ? [] : [verdict.role, `${verdict.role}, ${verdict.kind}`]),
    ];
    for (const name of names) groups.set(name, [...(groups.get(name) ?? []), verdict]);
  }
  const lines: string[] = [];
  for (const [name, group] of groups) {
    const found = reliability(group.flatMap(({ judgements }) => judgements))!;
    lines.push(
      `${name} (${group.length}): wins against all near misses ${share(group, ({ winsAll }) => winsAll)}, against those that can be heard ${share(group, ({ winsHearable }) => winsHearable)}; expected calibration error ${found.expectedCalibrationError.toFixed(3)}, Brier ${found.brier.toFixed(3)}`,
    );
  }
  const all = reliability(verdicts.flatMap(({ judgements }) => judgements))!;
  for (const { from, to, said, right, weight } of all.bins)
    lines.push(
      `reads ${from.toFixed(1)} to ${to.toFixed(1)}: said ${said.toFixed(3)}, right ${right.toFixed(3)} (${weight.toFixed(0)})`,
    );
  return lines;
}
