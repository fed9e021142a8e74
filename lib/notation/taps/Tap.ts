import type { Seconds } from "@/lib/units/quantities";

/** A beat that somebody tapped along with the record. */
export interface Tap {
  /** Where in the record, as it was heard. */
  timeSec: Seconds;
  /** Whether it was tapped as the first of its bar. */
  isDownbeat: boolean;
}
