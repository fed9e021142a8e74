import type { Change } from "@/lib/instrument/Copedent";
import type { Stage } from "@/lib/instrument/stages";

/** What is settled about feet and knees before strings are looked for. */
export interface FixedStages {
  /** Engaged for certain, in the copedent's order, whether a string needs them or not. */
  stages: readonly Stage[];
  /** Whether nothing more may be engaged of that change. */
  isSettled(change: Change): boolean;
  /** Whether that is so of every change. */
  isWhole: boolean;
  /** Tells one from another. */
  key: string;
}

/** Nothing is settled: of feet and knees only what the strings need is engaged. */
export const NOTHING_FIXED: FixedStages = { stages: [], isSettled: () => false, isWhole: false, key: "" };
