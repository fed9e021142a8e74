import type { ShownStudy } from "@/lib/document/read/SongSnapshot";
import { placeWords, type SongGrid } from "../axis/songGrid";
import { clockText } from "../format/format";
import { barsWords } from "./sectionWords";

/** What a study is called on the page: its name, or, where it has none, where it lies. */
export function studyName(
  study: Pick<ShownStudy, "name" | "startSec" | "endSec">,
  grid: SongGrid | null,
): string {
  return study.name || barsWords(study, grid);
}

/** Where it lies, as short as a cell: its bars where it has a name of its own, its times otherwise. */
export function studyPlace(
  study: Pick<ShownStudy, "name" | "startSec" | "endSec">,
  grid: SongGrid | null,
): string {
  if (study.name && grid) return barsWords(study, grid).replace(/^B/, "b");
  return `${clockText(study.startSec)} to ${clockText(study.endSec)}`;
}

/** A study in one line, for those who hear the page. */
export function studyLine(study: ShownStudy, grid: SongGrid | null, isAtHand: boolean): string {
  const where = grid
    ? `${placeWords(grid, study.startSec)} to ${placeWords(grid, study.endSec)}`
    : `${clockText(study.startSec, true)} to ${clockText(study.endSec, true)}`;
  const name = study.name ? `, ${study.name}` : "";
  return `Passage ${study.number}${name}, ${where}${isAtHand ? ", at hand" : ""}`;
}
