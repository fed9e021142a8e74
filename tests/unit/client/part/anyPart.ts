import type { PartEventFields } from "@/lib/document/commands/part";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { BeatGrid } from "@/lib/notation/barGrid";

/** Sixteen beats of half a second, in four, from second 1. */
export const GRID: BeatGrid = {
  beatsSec: Array.from({ length: 16 }, (_, index) => 1 + index / 2),
  inBar: Array.from({ length: 16 }, (_, index) => (index % 4) + 1),
  beatsPerBar: 4,
};

/** An event of the part as it is shown, a picked pair of half a second in ink unless told otherwise. */
export function shown(id: string, startSec: number, more: Partial<ShownPart> = {}): ShownPart {
  const fields: PartEventFields = {
    ...{ startSec, endSec: startSec + 0.5, strings: [4, 5], fret: 3, frets: null },
    ...{ changes: [], articulation: "pick", techniques: [] },
    ...more,
  };
  return {
    ...{ id, part: "part", mark: "ink", confidence: null },
    ...{ madeBy: "ann", madeAtMs: 0, editedBy: "ann", editedAtMs: 0 },
    ...fields,
    ...{ writtenEndSec: fields.endSec, writtenStrings: fields.strings },
    ...more,
  };
}
