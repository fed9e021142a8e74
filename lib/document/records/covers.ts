import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import type { EpochMs } from "@/lib/units/quantities";

/** Stands for the whole song where the id of a study may stand. No record is made under it. */
export const WHOLE_SONG = "song";

/** The map of what is kept covered, laid out as a kind's; its records are named by the study, or {@link WHOLE_SONG}. */
export const COVERS = "cover";
/** After it stands the lane: covered for everybody who is a student of the book. */
export const STUDENTS_PREFIX = "students.";
/** After it stand the lane, a dot, and the person who covers it from themselves. */
export const SELF_PREFIX = "self.";
/** After it stand the lane, a dot, and the person who looked. */
export const LOOKED_PREFIX = "looked.";

/** Whom a cover keeps something from: all students of the book, or the one person who laid it. */
export type CoveredFor = "students" | "self";

/** A register of a cover. */
export interface KeptCover {
  /** Differs with every act of covering, so that whoever looks can say which covers were lifted. */
  stamp: string;
  by: string;
  atMs: EpochMs;
  isCovered: boolean;
}

/** A cover that lies over a lane of a study or of the whole song (rule D44). */
export interface Cover extends Omit<KeptCover, "isCovered"> {
  /** Id of the study, or {@link WHOLE_SONG}. */
  target: string;
  lane: GuessLane;
  coveredFor: CoveredFor;
}

/** That one person looked under covers. Each person has a register of their own for each lane. */
export interface KeptLook {
  atMs: EpochMs;
  /** Stamps of the covers that were lifted. */
  seen: string[];
  /** Where, in order of time; null for everywhere. */
  stretches: HeardStretch[] | null;
}

/** Where one person looked under the covers of a lane (rule D44). */
export interface Look extends KeptLook {
  target: string;
  lane: GuessLane;
  by: string;
}
