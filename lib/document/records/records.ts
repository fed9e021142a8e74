import type { Certainty } from "@/lib/hearing/Hearing";
import type { PartEvent } from "@/lib/notation/PartEvent";
import type { Mode } from "@/lib/theory/key";
import type { Cents, Seconds } from "@/lib/units/quantities";
import type { Mark, Stamp } from "./Stamp";

/** What every record of the shared song carries. */
export interface RecordBase extends Stamp {
  id: string;
  mark: Mark;
  /** How sure the machine was; null where a person made it. */
  confidence: Certainty | null;
}

/** How far the record as a whole stands from A4 = 440 Hz. */
export interface TuningRecord extends RecordBase {
  tuningCents: Cents;
}

/** A stretch of the beat grid. */
export interface GridRecord extends RecordBase {
  /** Beat times, ascending. */
  beatsSec: Seconds[];
  /** Position in the bar of each beat, 1 = downbeat; as long as `beatsSec`. */
  inBar: number[];
  beatsPerBar: number;
}

/** Where home is, from `startSec` until the next home. */
export interface HomeRecord extends RecordBase {
  startSec: Seconds;
  tonic: string;
  mode: Mode;
}

/** A chord change. */
export interface ChangeRecord extends RecordBase {
  startSec: Seconds;
  endSec: Seconds;
  /** Harte label; `N` for no chord. */
  label: string;
}

/** An event of the part, written by a person (ink) or proposed (pencil). */
export interface PartRecord extends RecordBase, PartEvent {}

/** One map of the document for each kind of record. */
export interface RecordKinds {
  tuning: TuningRecord;
  grid: GridRecord;
  home: HomeRecord;
  change: ChangeRecord;
  part: PartRecord;
}
export type RecordKind = keyof RecordKinds;
