import type { RecordBase } from "../records/records";
import type { SongSnapshot } from "./SongSnapshot";

/** The kinds that lie in a lane which can be covered. */
export const COVERED_KINDS = ["home", "change", "bass", "note", "part"] as const;
export type CoveredKind = (typeof COVERED_KINDS)[number];

/** All that is shown of a kind, the band's notes and the events of all parts among it. */
export function shownOf(
  kind: CoveredKind,
  { homes, changes, bass, notes, bandNotes, parts }: SongSnapshot,
): readonly (RecordBase & { startSec: number; endSec?: number })[] {
  switch (kind) {
    case "home":
      return homes;
    case "change":
      return changes;
    case "bass":
      return bass;
    case "note":
      return [...notes, ...bandNotes];
    case "part":
      return parts.flatMap(({ events }) => events);
  }
}
