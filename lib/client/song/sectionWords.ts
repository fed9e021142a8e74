import type { ShownSection } from "@/lib/document/read/SongSnapshot";
import { type Bar, secondsToBeat } from "@/lib/notation/barGrid";
import { joinWords } from "@/lib/places/joinWords";
import type { Seconds, Semitones } from "@/lib/units/quantities";
import { barAt, type SongGrid } from "../axis/songGrid";
import { clockText } from "../format/format";
import { SAME_MOMENT_SEC } from "./sameMoment";

/** What of a section these words need. One that others lie over shows as several stretches of one id. */
export type NamedSection = Pick<
  ShownSection,
  "id" | "startSec" | "endSec" | "writtenStartSec" | "label" | "transposedSemitones"
>;

/** A section's name with how far it is moved, `A` or `A up 2`. */
export function sectionName({
  label,
  transposedSemitones,
}: Pick<NamedSection, "label" | "transposedSemitones">): string {
  if (transposedSemitones === 0) return label;
  return `${label} ${transposedSemitones > 0 ? "up" : "down"} ${Math.abs(transposedSemitones)}`;
}

/** `a half step up`, `3 half steps down`; empty for none. */
export function movedWords(semitones: Semitones): string {
  if (semitones === 0) return "";
  const way = semitones > 0 ? "up" : "down";
  const size = Math.abs(semitones);
  if (size === 1) return `a half step ${way}`;
  if (size === 2) return `a whole step ${way}`;
  return `${size} half steps ${way}`;
}

/**
 * What a section repeats, or where it comes again: "Bars 9 to 16 again, a half step up.", "Comes again at bar 25 and
 * bar 41."; by time where no beats are known. Null for one that stands alone.
 */
export function sectionRepeats(
  sections: readonly NamedSection[],
  section: NamedSection,
  grid: SongGrid | null,
): string | null {
  const ofLabel = sections.filter((each) => each.label === section.label);
  const alike = ofLabel.filter((each) => ofLabel.find((other) => other.id === each.id) === each);
  const first = alike[0];
  if (!first || alike.length < 2) return null;
  if (!isSame(first, section)) {
    const moved = movedWords(section.transposedSemitones - first.transposedSemitones);
    return `${barsWords(first, grid)} again${moved ? `, ${moved}` : ""}.`;
  }
  const places = alike.slice(1).map((each) => {
    const moved = movedWords(each.transposedSemitones - first.transposedSemitones);
    return `${placeOf(each, grid)}${moved ? ` (${moved})` : ""}`;
  });
  return `Comes again at ${joinWords(places)}.`;
}

/** Which bar a time's bar repeats: "Bar 26 is bar 10 again, a half step up."; null where it repeats none. */
export function barRepeats(
  sections: readonly NamedSection[],
  timeSec: Seconds,
  grid: SongGrid | null,
): string | null {
  if (!grid) return null;
  const atSec = timeSec + SAME_MOMENT_SEC;
  const section = sections.find((each) => each.startSec <= atSec && atSec < each.endSec);
  const first = section && sections.find((each) => each.label === section.label);
  if (!section || !first || isSame(first, section)) return null;
  const bar = barAt(grid, atSec);
  const from = nearestBar(grid, section.writtenStartSec);
  const firstFrom = nearestBar(grid, first.writtenStartSec);
  if (!bar || !from || !firstFrom || bar.number < from.number) return null;
  const same = firstFrom.number + bar.number - from.number;
  if (same > lastBar(grid, first)) return null;
  const moved = movedWords(section.transposedSemitones - first.transposedSemitones);
  return `Bar ${bar.number} is bar ${same} again${moved ? `, ${moved}` : ""}.`;
}

function isSame(one: NamedSection, other: NamedSection): boolean {
  return one.id === other.id;
}

/** "Bars 9 to 16", or by time. */
export function barsWords(section: Pick<NamedSection, "startSec" | "endSec">, grid: SongGrid | null): string {
  const from = grid && nearestBar(grid, section.startSec);
  if (!grid || !from) return `${clockText(section.startSec)} to ${clockText(section.endSec)}`;
  const to = lastBar(grid, section);
  return to > from.number ? `Bars ${from.number} to ${to}` : `Bar ${from.number}`;
}

function placeOf(section: NamedSection, grid: SongGrid | null): string {
  const bar = grid && nearestBar(grid, section.startSec);
  return bar ? `bar ${bar.number}` : clockText(section.startSec);
}

/** Number of the bar that ends nearest to the section's end. */
function lastBar(grid: SongGrid, section: Pick<NamedSection, "startSec" | "endSec">): number {
  const after = nearestBar(grid, section.endSec);
  const from = nearestBar(grid, section.startSec);
  const last = grid.bars.at(-1);
  if (!after || !from) return 0;
  const isPastLast = last && section.endSec > (last.startSec + last.endSec) / 2;
  return Math.max(from.number, isPastLast ? last.number : after.number - 1);
}

/** The bar that begins nearest to a time. */
function nearestBar(grid: SongGrid, timeSec: Seconds): Bar | null {
  const beat = secondsToBeat(grid, timeSec);
  const bar = barAt(grid, timeSec) ?? grid.bars[0] ?? null;
  if (!bar) return null;
  const isNearNext = beat - bar.startBeat > (bar.endBeat - bar.startBeat) / 2;
  return isNearNext ? (grid.bars.find((each) => each.startBeat === bar.endBeat) ?? bar) : bar;
}
