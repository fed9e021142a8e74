import { movedWords, sectionRepeats } from "@/lib/client/song/sectionWords";
import type { ShownSection } from "@/lib/document/read/SongSnapshot";
import { markWords, stretchWords } from "./changeWords";
import type { Desk } from "./DeskContext";

/** A section in one line, for those who hear the page. */
export function sectionLine({ opened, grid, nameOf }: Desk, section: ShownSection): string {
  const moved = movedWords(section.transposedSemitones);
  const repeats = sectionRepeats(opened.song.sections, section, grid);
  return [
    `Section ${section.label}${moved ? `, ${moved}` : ""}`,
    stretchWords(grid, section.startSec, section.endSec),
    ...(repeats ? [repeats.replace(/\.$/, "").replace(/^[BC]/, (letter) => letter.toLowerCase())] : []),
    markWords(section, nameOf),
  ].join(", ");
}
