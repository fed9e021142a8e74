import type { ChangeRecord, GridRecord, HomeRecord, PartRecord, TuningRecord } from "../records/records";

/** A change as everyone sees it: the stretch its record wins, which may be shorter than what was written. */
export interface ShownChange extends ChangeRecord {
  /** The stretch as written in the record, before overlaps were resolved. */
  writtenStartSec: number;
  writtenEndSec: number;
}

/** The whole song as plain data, the same on every replica that has the same updates. */
export interface SongSnapshot {
  tuning: TuningRecord | null;
  grid: GridRecord | null;
  /** In order of time. */
  homes: HomeRecord[];
  /** In order of time, never overlapping. */
  changes: ShownChange[];
  /** In order of time, then lowest string number. */
  part: PartRecord[];
}
