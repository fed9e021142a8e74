import type { Prediction } from "./prediction";
import type { Subject } from "./Subject";
import type { ItemScore } from "./scoreItem";

/** One record, what was heard of it, and how right that is. */
export interface Case {
  subject: Subject;
  /** Null where it could not be heard. */
  prediction: Prediction | null;
  score: ItemScore;
  /** Work of one thread for it; null where the machine does not tell, or nothing was heard. */
  cpuSec: number | null;
}
