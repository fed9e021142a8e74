import type { Evaluation } from "./evaluate";
import type { ItemScore } from "./scoreItem";
import type { Figure } from "./summary";

function figureLine(set: string, { metric, value, itemCount }: Figure): string {
  return `${set} ${metric} ${value.toFixed(4)} (${itemCount} ${itemCount === 1 ? "item" : "items"})`;
}

/** Every figure on a line of its own: `set metric value (n items)`, the set as a whole, then group by group. */
export function reportLines({
  set,
  all,
  groups,
  failures,
  hearsNotes,
  audioSec,
  computeSec,
}: Evaluation): string[] {
  const speed = computeSec > 0 ? audioSec / computeSec : 0;
  return [
    ...all.map((figure) => figureLine(set, figure)),
    `${set} audioSecPerComputeSec ${speed.toFixed(2)} (${audioSec.toFixed(0)} s of audio, ${computeSec.toFixed(0)} s of computing, all threads together)`,
    ...(hearsNotes ? [] : [`${set} notes, steel and glides: not scored, this ear hears no notes`]),
    ...failures.map(({ id, fault }) => `${set} FAILED ${id}: ${fault} (scored zero)`),
    ...groups.flatMap(({ group, figures }) => figures.map((figure) => figureLine(`${set}/${group}`, figure))),
  ];
}

/** One line for each item, with its main figures. */
export function itemLines(set: string, scores: readonly ItemScore[]): string[] {
  return scores.map(({ id, values, chords, badLabels }) => {
    const majmin = chords?.majmin;
    const shown = {
      majmin: majmin && majmin.scoredSec > 0 ? majmin.rightSec / majmin.scoredSec : undefined,
      ...values,
      badLabels: badLabels > 0 ? badLabels : undefined,
    };
    const parts = Object.entries(shown).flatMap(([name, value]) =>
      value === undefined ? [] : [`${name} ${Number(value.toFixed(4))}`],
    );
    return `${set}:${id} ${parts.join(", ")}`;
  });
}
