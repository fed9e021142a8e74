import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { SongGrid } from "../axis/songGrid";

/** Bars that were typed and are none; the message is in words for people. */
export class TypedBarsError extends Error {
  override readonly name = "TypedBarsError";
}

/** `9`, `9-12`, `bars 9 to 12`, with any dash. */
const BARS = /^(?:bars?\s*)?(\d{1,4})(?:\s*(?:-|–|—|−|to)\s*(\d{1,4}))?$/i;

/**
 * The stretch of the bars that a player typed, `9-12` from the start of bar 9 to the end of bar 12.
 * @throws TypedBarsError where they cannot be read, or the song has no such bars
 */
export function typedBars(text: string, grid: SongGrid | null): HeardStretch {
  const match = BARS.exec(text.trim());
  if (!match) throw new TypedBarsError(`"${text.trim()}" names no bars: type 9-12, or 9 for that bar alone.`);
  const last = grid?.bars.at(-1);
  if (!grid || !last)
    throw new TypedBarsError("The bars of this song are not known yet. Select the stretch in the lanes.");
  const from = Number(match[1]);
  const to = Number(match[2] ?? match[1]);
  if (to < from) throw new TypedBarsError(`Bar ${to} comes before bar ${from}: type the earlier one first.`);
  const first = grid.bars.find(({ number }) => number === from);
  const end = grid.bars.find(({ number }) => number === to);
  if (!first || !end) {
    const start = grid.bars[0]?.number ?? 1;
    throw new TypedBarsError(`This song has bars ${Math.max(1, start)} to ${last.number}.`);
  }
  return { startSec: first.startSec, endSec: end.endSec };
}
