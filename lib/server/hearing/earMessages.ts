import type { Hearing } from "@/lib/hearing/Hearing";
import type { RunStep } from "./runWeights";

/** What the worker thread is started with. */
export interface EarOrder {
  /** The record, a file on this machine. */
  path: string;
  maxDurationSec: number;
  /** Longest that decoding may take. */
  timeLimitSec: number;
  /** Name or path; null where ffmpeg must not be used. */
  ffmpeg: string | null;
  /** False where the record's peaks are there already. */
  peaksWanted: boolean;
}

/** What the worker thread says as it works; `heard` or `fault` is its last word. */
export type EarWord =
  | { kind: "progress"; step: RunStep; fraction: number }
  /** The process id of the ffmpeg that the thread runs, so that it can be ended with it; null once it has ended. */
  | { kind: "process"; pid: number | null }
  | { kind: "peaks"; data: Uint8Array }
  | { kind: "heard"; hearing: Hearing }
  | { kind: "fault"; message: string };
