import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { BeatGrid } from "@/lib/notation/barGrid";
import type { Seconds } from "@/lib/units/quantities";
import { snapToBeat, stepBeat } from "../axis/songGrid";
import type { Caret } from "./partTyping";
import { SAME_MOMENT_SEC } from "./sameMoment";

/** What begins this near is meant where no beats are known. */
const NEAR_SEC: Seconds = 0.25;

/**
 * Where one goes on in the part from a time: to the event that begins there, within half a beat, on its upper string.
 * Where none does, to the beat, on the upper string of what was played last before it: there the hands are. Where nothing
 * was, on the middle string.
 * @param part in order of time
 */
export function caretFrom(
  part: readonly ShownPart[],
  timeSec: Seconds,
  grid: BeatGrid | null,
  { strings }: Pick<Copedent, "strings">,
): Caret {
  const beatSec = grid ? snapToBeat(grid, timeSec) : timeSec;
  const [fromSec, toSec] = grid
    ? ([-1, 1] as const).map((way) => (beatSec + stepBeat(grid, beatSec, way)) / 2)
    : [timeSec - NEAR_SEC, timeSec + NEAR_SEC];
  const known = new Set(strings.map(({ number }) => number));
  const playable = part.filter((event) => event.strings.some((string) => known.has(string)));
  const here = playable
    .filter(({ startSec }) => startSec >= fromSec! - SAME_MOMENT_SEC && startSec < toSec!)
    .sort((a, b) => Math.abs(a.startSec - timeSec) - Math.abs(b.startSec - timeSec))[0];
  const before = here ?? playable.findLast(({ startSec }) => startSec < beatSec);
  const middle = strings[Math.ceil(strings.length / 2) - 1]!.number;
  const string = before ? Math.min(...before.strings.filter((each) => known.has(each))) : middle;
  return { string, timeSec: here?.startSec ?? beatSec };
}
