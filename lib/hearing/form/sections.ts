import type { Seconds } from "@/lib/units/quantities";
import type { HeardGrid, HeardSection, HeardStretch } from "../Hearing";
import { fromLogOdds } from "../logOdds";
import type { ToldSection } from "./account";
import { barsOf, chordsInBars } from "./barChords";
import { BarLikeness } from "./barLikeness";
import { fewestWords } from "./fewestWords";
import { FORM } from "./parameters";
import { type RepeatedBar, repeatedBars, signed } from "./repeatedBars";

/** What a form is heard from. */
export interface FormEvidence {
  grid: Pick<HeardGrid, "beats" | "beatsPerBar">;
  /** Probability of each of CHORD_STATES in each stretch. */
  certain: readonly ArrayLike<number>[];
  /** Edges of the stretches, one more. */
  edgesSec: readonly Seconds[];
  durationSec: Seconds;
}

/** The form of a record. */
export interface HeardForm {
  /** Over the whole record, without gaps. */
  sections: HeardSection[];
  /** From each downbeat to the next, the last to the end of the record. */
  bars: HeardStretch[];
  /** Which bars are which bars again. */
  repeats: RepeatedBar[];
}

/**
 * Sections and repeats of a record, by its chords in bars.
 * @param onStep told how far the search is
 */
export function hearForm(
  { grid, certain, edgesSec, durationSec }: FormEvidence,
  onStep?: (index: number, count: number) => void,
): HeardForm {
  const bars = barsOf(grid.beats, durationSec);
  const likeness = new BarLikeness(chordsInBars(certain, edgesSec, bars, grid.beatsPerBar));
  const { sections } = fewestWords(likeness, onStep);
  // Sections are told by their chords alone: where no chord (state 0) is likeliest throughout, nothing is known of them.
  const isKnown = certain.some((chances) => chances[0]! < 0.5);
  const timed = sections.map((section, i) => ({
    startSec: i === 0 ? 0 : bars[section.from]!.startSec,
    endSec: i + 1 < sections.length ? bars[section.to]!.startSec : durationSec,
    label: letterName(section.letter),
    transposedSemitones: signed(section.semitones),
    confidence: isKnown ? confidenceOf(section) : 0,
  }));
  return { sections: timed, bars, repeats: repeatedBars(sections, likeness) };
}

/** A to Z, then AA, AB and so on. */
function letterName(letter: number): string {
  const last = String.fromCharCode(65 + (letter % 26));
  return letter < 26 ? last : letterName(Math.floor(letter / 26) - 1) + last;
}

/** Of what a repeat gains: the more bars are alike, the surer; of a first, how far the best repeat falls short. */
function confidenceOf({ gain, isFirst }: ToldSection): number {
  const repeats = fromLogOdds(FORM.confidencePerBar * gain);
  return FORM.confidenceCeiling * (isFirst ? 1 - repeats : repeats);
}
