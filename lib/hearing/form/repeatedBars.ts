import type { Semitones } from "@/lib/units/quantities";
import type { ToldSection } from "./account";
import type { BarLikeness } from "./barLikeness";
import { FORM } from "./parameters";

/** A bar that is an earlier one played again. */
export interface RepeatedBar {
  /** Counted from the first downbeat, 0 first. */
  bar: number;
  /** The bar of the first section of its letter that it repeats. */
  of: number;
  /** How much higher than that, -5 to 6. */
  semitones: Semitones;
  /** How alike the two are: 1 is as the bar is to itself, 0 as chance. */
  likeness: number;
}

/** Which bars are which bars again ("this is bar 9 again"), in order; those that sound otherwise are left out. */
export function repeatedBars(sections: readonly ToldSection[], likeness: BarLikeness): RepeatedBar[] {
  return sections.flatMap((section) => {
    if (section.isFirst) return [];
    const first = sections.find(({ letter }) => letter === section.letter)!;
    const length = Math.min(section.to - section.from, first.to - first.from);
    return Array.from({ length }, (_, i): RepeatedBar => {
      const [bar, of] = [section.from + i, first.from + i];
      const own = likeness.ofRun(bar, bar, 1, 0);
      const alike = likeness.ofRun(bar, of, 1, section.semitones);
      return { bar, of, semitones: signed(section.semitones), likeness: own > 0 ? alike / own : 0 };
    }).filter((repeated) => repeated.likeness >= FORM.surelyAlike);
  });
}

/** Semitones up, 0 to 11, as the nearer way up or down: -5 to 6. */
export function signed(semitones: Semitones): Semitones {
  return semitones > 6 ? semitones - 12 : semitones;
}
