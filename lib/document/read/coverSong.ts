import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import type { Seconds } from "@/lib/units/quantities";
import { WHOLE_SONG } from "../records/covers";
import type { RecordBase, RecordKind } from "../records/records";
import type { ShownStudy, SongSnapshot } from "./SongSnapshot";
import { clipped, joined, leftBeside } from "./stretches";

/** Who looks at the song. */
export interface Reader {
  id: string;
  /** Whether covers for students are for this person. */
  isStudent: boolean;
}

/** Where lanes are covered for one reader; in order of time, without overlap. */
export type CoveredStretches = { readonly [L in GuessLane]: readonly HeardStretch[] };

/** What covers one lane of a study or of the whole song for a reader, and where the reader has looked under it. */
interface Lid {
  looked: readonly HeardStretch[];
  /** What was not looked at. */
  left: readonly HeardStretch[];
}

/** A record that reaches no further than this under a cover lies beside it. */
export const BESIDE_SEC: Seconds = 0.05;
const EVERYWHERE: HeardStretch = { startSec: 0, endSec: Number.POSITIVE_INFINITY };

/** What a reader may see of the song (rule D45). */
export interface CoveredSong {
  /** The song without what is covered. */
  song: SongSnapshot;
  /** Where something is covered, whether anything lies there or not. */
  stretches: CoveredStretches;
  /** Whether a record that lies there would be kept from the reader; for records that the snapshot does not show. */
  hides(kind: RecordKind, record: RecordBase & { startSec: Seconds; endSec?: Seconds }): boolean;
}

/** In which lane the records of a kind are covered; left out of those that never are. */
export const LANE_OF: { readonly [K in RecordKind]?: GuessLane } = {
  home: "home",
  change: "changes",
  bass: "changes",
  note: "heard",
  part: "places",
};

/**
 * Takes out of a song what is covered for a reader: pencil and ink alike, but not what the reader was the last to settle.
 * The document keeps all; what is shown of it is taken from here.
 */
export function coverSong(song: SongSnapshot, reader: Reader): CoveredSong {
  const lids: Record<GuessLane, Lid[]> = {
    home: lidsOf(song, "home", reader),
    changes: lidsOf(song, "changes", reader),
    heard: lidsOf(song, "heard", reader),
    places: lidsOf(song, "places", reader),
  };
  const leftOf = (lane: GuessLane) => joined(lids[lane].flatMap(({ left }) => left));
  const stretches: CoveredStretches = {
    home: leftOf("home"),
    changes: leftOf("changes"),
    heard: leftOf("heard"),
    places: leftOf("places"),
  };
  const isFree = Object.values(stretches).every((list) => list.length === 0);

  // What reaches out of a stretch that was looked at is seen whole: its reader knows it.
  const isHidden = (lane: GuessLane, record: RecordBase, stretch: HeardStretch): boolean =>
    record.editedBy !== reader.id &&
    lids[lane].some(
      ({ left, looked }) =>
        left.some((each) => overlaps(each, stretch)) && !looked.some((each) => overlaps(each, stretch)),
    );
  const hides: CoveredSong["hides"] = (kind, record) => {
    const lane = LANE_OF[kind];
    return lane !== undefined && !isFree && isHidden(lane, record, stretchTaken(kind, record, song.homes));
  };
  if (isFree) return { song, stretches, hides };

  const seen = <K extends RecordKind, R extends RecordBase & { startSec: Seconds; endSec?: Seconds }>(
    kind: K,
    list: R[],
  ): R[] => {
    const left = list.filter((record) => !hides(kind, record));
    return left.length === list.length ? list : left;
  };
  const { covered } = song;
  // A home that is kept back somewhere is so wherever it holds.
  const unseenHome = joined([
    ...stretches.home,
    ...song.homes.filter((home) => hides("home", home)).map((home) => stretchTaken("home", home, song.homes)),
  ]);
  return {
    song: {
      ...song,
      homes: seen("home", song.homes),
      ...(unseenHome.length > 0 && { unseenHome }),
      changes: seen("change", song.changes),
      bass: seen("bass", song.bass),
      notes: seen("note", song.notes),
      bandNotes: seen("note", song.bandNotes),
      parts: song.parts.map((part) => {
        const events = seen("part", part.events);
        return events === part.events ? part : { ...part, events };
      }),
      part: seen("part", song.part),
      covered: {
        ...covered,
        home: seen("home", covered.home),
        change: seen("change", covered.change),
        bass: seen("bass", covered.bass),
        note: seen("note", covered.note),
        part: seen("part", covered.part),
      },
    },
    stretches,
    hides,
  };
}

/** The stretch of a study, or of the whole song; null where the study is not shown. */
export function targetStretch(
  studies: readonly Pick<ShownStudy, "id" | "startSec" | "endSec">[],
  target: string,
): HeardStretch | null {
  if (target === WHOLE_SONG) return EVERYWHERE;
  const study = studies.find(({ id }) => id === target);
  return study ? { startSec: study.startSec, endSec: study.endSec } : null;
}

function lidsOf({ covers, looks, studies }: SongSnapshot, lane: GuessLane, reader: Reader): Lid[] {
  const mine = covers.filter(
    (cover) =>
      cover.lane === lane && (cover.coveredFor === "students" ? reader.isStudent : cover.by === reader.id),
  );
  return [...new Set(mine.map(({ target }) => target))].flatMap((target) => {
    const stretch = targetStretch(studies, target);
    if (!stretch) return [];
    const look = looks.find((each) => each.lane === lane && each.target === target && each.by === reader.id);
    const isLifted = mine.every((cover) => cover.target !== target || look?.seen.includes(cover.stamp));
    const where = look && isLifted ? (look.stretches ?? [stretch]) : [];
    const looked = where
      .map((each) => clipped(each, stretch))
      .filter(({ startSec, endSec }) => endSec > startSec);
    return [{ looked, left: leftBeside(stretch, looked, BESIDE_SEC) }];
  });
}

/**
 * The stretch of a lane that a record takes: a home until the next, all others at least so much that a cover over their
 * beginning covers them.
 */
export function stretchTaken(
  kind: RecordKind,
  { startSec, endSec }: { startSec: Seconds; endSec?: Seconds },
  homes: readonly { startSec: Seconds }[],
): HeardStretch {
  if (kind === "home") return homeStretch(homes, startSec);
  return { startSec, endSec: Math.max(endSec ?? startSec, startSec + 2 * BESIDE_SEC) };
}

/** From where to where a home holds: the first from the start of the record on, since nothing is known before it. */
function homeStretch(homes: readonly { startSec: Seconds }[], startSec: Seconds): HeardStretch {
  const next = homes.find((each) => each.startSec > startSec);
  const isFirst = homes.every((each) => each.startSec >= startSec);
  return { startSec: isFirst ? 0 : startSec, endSec: next?.startSec ?? Number.POSITIVE_INFINITY };
}

function overlaps(one: HeardStretch, other: HeardStretch): boolean {
  return one.endSec > other.startSec + BESIDE_SEC && one.startSec < other.endSec - BESIDE_SEC;
}
