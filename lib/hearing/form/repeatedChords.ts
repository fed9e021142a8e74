import type { Semitones } from "@/lib/units/quantities";
import type { HeardStretch } from "../Hearing";
import type { RepeatedStretch } from "../repeatedStretches";
import { FORM } from "./parameters";
import type { RepeatedBar } from "./repeatedBars";
import type { FormEvidence } from "./sections";

/**
 * The stretches of bars that are surely one another again, in groups that share what is heard in them. A bar that
 * falls into other stretches than the one it repeats is left out; a stretch that was heard clearly takes nothing,
 * since a repeat may well be played with another colour.
 * @param certain probability of each chord in each stretch
 * @param edgesSec edges of the stretches, one more
 * @param bars all bars of the record, in order
 * @returns groups of two and more, no stretch in two of them
 */
export function repeatedChords(
  { certain, edgesSec }: Pick<FormEvidence, "certain" | "edgesSec">,
  bars: readonly HeardStretch[],
  repeats: readonly RepeatedBar[],
): RepeatedStretch[][] {
  const stretchesIn = bars.map((): number[] => []);
  let bar = 0;
  for (let i = 0; i + 1 < edgesSec.length; i++) {
    const middleSec = (edgesSec[i]! + edgesSec[i + 1]!) / 2;
    while (bar < bars.length && bars[bar]!.endSec <= middleSec) bar += 1;
    if (bar < bars.length && bars[bar]!.startSec <= middleSec) stretchesIn[bar]!.push(i);
  }
  const shared = (stretch: number, semitones: Semitones): RepeatedStretch => {
    let surest = 0;
    for (let s = 0; s < certain[stretch]!.length; s++) surest = Math.max(surest, certain[stretch]![s]!);
    return { stretch, semitones, takes: surest < FORM.unsureUnder };
  };
  const groups = new Map<number, RepeatedStretch[]>();
  for (const { bar: again, of, semitones, likeness } of repeats) {
    const here = stretchesIn[again]!;
    const there = stretchesIn[of]!;
    if (likeness < FORM.alikeEnoughToShare || here.length !== there.length) continue;
    here.forEach((stretch, place) => {
      const first = there[place]!;
      const group = groups.get(first) ?? [shared(first, 0)];
      group.push(shared(stretch, semitones));
      groups.set(first, group);
    });
  }
  return [...groups.values()];
}
