import type { Seconds } from "@/lib/units/quantities";
import type { HeardGrid, HeardSection } from "../Hearing";
import { FORM } from "../parameters";
import type { ToldSection } from "./account";
import { barsOf, chordsInBars } from "./barChords";
import { BarLikeness } from "./barLikeness";
import { fewestWords } from "./fewestWords";

/** What a form is heard from. */
export interface FormEvidence {
  grid: Pick<HeardGrid, "beats" | "beatsPerBar">;
  /** Probability of each of CHORD_STATES in each stretch. */
  certain: readonly ArrayLike<number>[];
  /** Edges of the stretches, one more. */
  edgesSec: readonly Seconds[];
  durationSec: Seconds;
}

/** The sections of a record, over the whole of it. */
export function hearSections(
  { grid, certain, edgesSec, durationSec }: FormEvidence,
  onStep?: (index: number, count: number) => void,
): HeardSection[] {
  const bars = barsOf(grid.beats, durationSec);
  const likeness = new BarLikeness(chordsInBars(certain, edgesSec, bars, grid.beatsPerBar));
  const { sections } = fewestWords(likeness, onStep);
  return sections.map((section, i) => ({
    startSec: i === 0 ? 0 : bars[section.from]!.startSec,
    endSec: i + 1 < sections.length ? bars[section.to]!.startSec : durationSec,
    label: letterName(section.letter),
    transposedSemitones: section.semitones > 6 ? section.semitones - 12 : section.semitones,
    confidence: confidenceOf(section),
  }));
}

/** A to Z, then AA, AB and so on. */
function letterName(letter: number): string {
  const last = String.fromCharCode(65 + (letter % 26));
  return letter < 26 ? last : letterName(Math.floor(letter / 26) - 1) + last;
}

function confidenceOf({ gain, isFirst }: ToldSection): number {
  const repeats = 1 / (1 + Math.exp(-FORM.confidencePerBar * gain));
  return isFirst ? 1 - repeats : repeats;
}
