import type { PitchClass } from "@/lib/units/quantities";
import type { BarLikeness } from "./barLikeness";
import { FORM } from "./parameters";

/** A section, in bars. */
export interface ToldSection {
  from: number;
  to: number;
  /** 0 for A. Sections with one letter repeat one another. */
  letter: number;
  isFirst: boolean;
  /** Semitones (0 to 11) above the first section of its letter. */
  semitones: PitchClass;
  /** What telling it as a repeat gains, or would gain, in bars that need not be told. */
  gain: number;
}

/** A record told section by section. */
export interface Account {
  sections: ToldSection[];
  /** Bars that need not be told, less what sections and repeats cost. */
  gain: number;
}

/**
 * Tells the record in sections that begin at the bars given: each is told as new, or as a repeat of an earlier one at
 * some pitch where that takes fewer words.
 * @param starts rising, 0 first
 * @param semitones transpositions that are tried
 */
export function tell(
  starts: readonly number[],
  likeness: BarLikeness,
  semitones: readonly PitchClass[],
): Account {
  const sections: ToldSection[] = [];
  let letters = 0;
  let gain = 0;
  /** A key once changed stays changed; only the change costs. */
  let pitch = 0;
  for (let s = 0; s < starts.length; s++) {
    const from = starts[s]!;
    const to = starts[s + 1] ?? likeness.count;
    let best = Number.NEGATIVE_INFINITY;
    let source: ToldSection | null = null;
    let higher = 0;
    for (const other of sections) {
      const length = Math.min(to - from, other.to - other.from);
      const odd = Math.abs(to - from - (other.to - other.from));
      const cost = FORM.repeatBar * length + FORM.oddBar * odd;
      for (const k of semitones) {
        const moved = (other.semitones + k) % 12 !== pitch;
        const value = likeness.ofRun(from, other.from, length, k) - cost - (moved ? FORM.transposeCost : 0);
        if (value <= best) continue;
        best = value;
        source = other;
        higher = k;
      }
    }
    gain -= costOfSection(to - from);
    if (source && best > 0) {
      gain += best;
      pitch = (source.semitones + higher) % 12;
      const { letter } = source;
      sections.push({
        from,
        to,
        letter,
        isFirst: false,
        semitones: (source.semitones + higher) % 12,
        gain: best,
      });
    } else {
      sections.push({ from, to, letter: letters, isFirst: true, semitones: 0, gain: best });
      letters += 1;
    }
  }
  return { sections, gain };
}

/** Short sections are rarer than long ones, and bars come in fours and twos more often than not. */
function costOfSection(bars: number): number {
  const short = FORM.shortBar * Math.max(0, FORM.usualBars - bars);
  if (bars % 4 === 0) return FORM.sectionCost + short;
  return FORM.sectionCost + short + (bars % 2 === 0 ? FORM.notInFours : FORM.notInTwos);
}
