import type { PitchClass } from "@/lib/units/quantities";
import { type Account, tell } from "./account";
import { type AlikeRun, alikeRuns } from "./alikeRuns";
import type { BarLikeness } from "./barLikeness";
import { FORM } from "./parameters";

/**
 * The account of a record that takes the fewest words, by its repeats: sections and letters are sought together, by
 * moving, adding and taking away boundaries one at a time for as long as that helps, from several beginnings (after
 * J. Paulus and A. Klapuri, "Music structure analysis using a probabilistic fitness measure and a greedy search
 * algorithm", IEEE TASLP 17 (2009); lengths as regular as in G. Sargent, F. Bimbot and E. Vincent, "Estimating the
 * structural segmentation of popular music pieces under regularity constraints", IEEE/ACM TASLP 25 (2017)).
 * @param onBeginning told which beginning is gone out from
 * @param effortPerBar see FORM
 */
export function fewestWords(
  likeness: BarLikeness,
  onBeginning?: (index: number, count: number) => void,
  effortPerBar: number = FORM.effortPerBar,
): Account {
  const runs = alikeRuns(likeness);
  const semitones = [...new Set([0, ...runs.map((run) => run.semitones)])];
  let best = tell([0], likeness, semitones);
  if (runs.length === 0) return best;
  const beginnings = [
    ...Array.from(
      { length: FORM.gridBars },
      (_, offset) => () => everyBars(offset, likeness.count, FORM.gridBars),
    ),
    ...runs.slice(0, FORM.runsTried).map((run) => () => cutAt(run, best)),
  ];
  const effort = { left: effortPerBar * likeness.count };
  beginnings.forEach((beginning, index) => {
    onBeginning?.(index, beginnings.length);
    const account = improved(beginning(), likeness, semitones, effort);
    if (account.gain > best.gain) best = account;
  });
  return best;
}

function everyBars(first: number, to: number, step: number): number[] {
  const starts = [0];
  for (let bar = first || step; bar < to; bar += step) starts.push(bar);
  return starts;
}

/** The sections of an account, cut anew so that a run of bars and what it is like are sections, or many where they touch. */
function cutAt({ from, to, lag }: AlikeRun, { sections }: Account): number[] {
  const count = sections.at(-1)!.to;
  const cuts = new Set(everyBars(from - lag, to + 1, lag).concat(to, to - lag));
  const outside = sections.map((section) => section.from).filter((bar) => bar < from - lag || bar >= to);
  return [...new Set([0, ...outside, ...cuts])].filter((bar) => bar < count).sort((a, b) => a - b);
}

const SHIFTS = [-1, 1, -2, 2, -4, 4];

/** @param effort comparisons of two sections at one pitch that may still be made; once they are, no more is tried out */
function improved(
  beginning: number[],
  likeness: BarLikeness,
  semitones: readonly PitchClass[],
  effort: { left: number },
): Account {
  let starts = beginning;
  let account = tell(starts, likeness, semitones);
  const tryOut = (changed: number[]): boolean => {
    if (effort.left <= 0) return false;
    effort.left -= (semitones.length * changed.length ** 2) / 2;
    const other = tell(changed, likeness, semitones);
    if (other.gain <= account.gain + FORM.leastGain) return false;
    starts = changed;
    account = other;
    return true;
  };
  for (let moved = true; moved; ) {
    moved = false;
    for (let i = 1; i < starts.length; i++) {
      if (tryOut(starts.toSpliced(i, 1))) {
        moved = true;
        i -= 1;
        continue;
      }
      for (const shift of SHIFTS) {
        const bar = starts[i]! + shift;
        if (bar <= starts[i - 1]! || bar >= (starts[i + 1] ?? likeness.count)) continue;
        if (tryOut(starts.with(i, bar))) moved = true;
      }
    }
    for (let bar = 1; bar < likeness.count; bar++) {
      if (starts.includes(bar)) continue;
      if (tryOut(withCuts(starts, [bar])) || tryOut(withCuts(starts, alsoInRepeats(bar, account))))
        moved = true;
    }
  }
  return account;
}

function withCuts(starts: readonly number[], bars: readonly number[]): number[] {
  return [...new Set([...starts, ...bars])].sort((a, b) => a - b);
}

/** The same place in each section that repeats the one in which a bar lies. */
function alsoInRepeats(bar: number, { sections }: Account): number[] {
  const cut = sections.find(({ from, to }) => from < bar && bar < to);
  if (!cut) return [];
  return sections
    .filter(({ letter, from, to }) => letter === cut.letter && from + bar - cut.from < to)
    .map(({ from }) => from + bar - cut.from);
}
