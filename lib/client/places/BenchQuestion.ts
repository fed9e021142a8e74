import type { ShownChange, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { NoPlace } from "@/lib/places/NoPlace";
import type { PlaceLocks } from "@/lib/places/PlaceLocks";
import type { RankedPlace } from "@/lib/places/RankedPlace";
import type { Key } from "@/lib/theory/key";
import type { Midi, Seconds } from "@/lib/units/quantities";
import type { PassageNote } from "../song/passageMoments";
import type { PassageWay } from "../song/placePassage";

/** The ranking looks at neighbours no further off than this. */
const AROUND_SEC: Seconds = 10;

/** Notes that are to be placed on the bench, with all that the ranking looks at. */
export interface BenchQuestion {
  copedent: Copedent;
  midis: readonly Midi[];
  timeSec: Seconds;
  /** Home; undefined where it is not seen: then no position is told as one of it. */
  key: Key | undefined;
  /** Events of the part that stay; of them those about that time. */
  part: readonly ShownPart[];
  changes: readonly ShownChange[];
  /** The event that is being placed, if it is written already. */
  event: ShownPart | null;
  /** The notes as they were heard, where they were; a place then goes on through their glides, around `kept`. */
  handed: readonly PassageNote[];
  kept: readonly ShownPart[];
  locks: PlaceLocks;
  /** Whether the bar may be slanted. */
  slants: boolean;
  /** As many places are shown. */
  count: number;
}

export interface BenchAnswer {
  /** The few worth showing, easiest first. */
  places: RankedPlace[];
  /** For each of them how it goes on through the glides; null where nothing was handed, or it cannot go on. */
  ways: (PassageWay | null)[];
  /** Cost of the easiest place. */
  easiestCost: number;
  /** Why there is none; null where there are some. */
  whyNone: NoPlace | null;
}

/** The question with no more of the song than it looks at, to be sent. */
export function narrowed(question: BenchQuestion): BenchQuestion {
  const { timeSec, event, handed } = question;
  const from = Math.min(timeSec, ...handed.map((note) => note.startSec)) - AROUND_SEC;
  const to = Math.max(timeSec, event?.endSec ?? 0, ...handed.map((note) => note.endSec)) + AROUND_SEC;
  const isAround = (one: { startSec: Seconds; endSec: Seconds }) => one.endSec >= from && one.startSec <= to;
  return {
    ...question,
    part: question.part.filter(isAround),
    changes: question.changes.filter(isAround),
    kept: question.kept.filter(isAround),
  };
}
