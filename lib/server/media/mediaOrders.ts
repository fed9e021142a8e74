import type { Hertz, Seconds } from "@/lib/units/quantities";
import type { Declared } from "./declaredType";
import type { MediaErrorCode, MediaErrorDetails } from "./MediaError";
import type { RecordFacts } from "./RecordFacts";

interface Reading {
  path: string;
  maxDurationSec: Seconds;
  timeLimitSec: Seconds;
  /** Name or path; null where ffmpeg must not be used. */
  ffmpeg: string | null;
}

/** A record as the ear takes it, in a shape that can pass between threads. */
export interface TakenIn {
  /** As {@link Signal} keeps them. */
  pieces: Float32Array<ArrayBuffer>[];
  length: number;
  sampleRateHz: Hertz;
  durationSec: Seconds;
}

/** What a media thread is started with. */
export type MediaOrder =
  | (Reading & { kind: "take-in" })
  | (Reading & { kind: "inspect"; declared: Declared })
  | (Reading & { kind: "listening-copy"; toPath: string });

/** What each order gives. */
export interface MediaAnswers {
  "take-in": TakenIn;
  inspect: RecordFacts;
  "listening-copy": { byteCount: number };
}

/** What a media thread says; `done`, `refused` or `broken` is its last word. */
export type MediaWord =
  | { kind: "progress"; fraction: number }
  /** The process id of the ffmpeg it runs, so that it can be ended with the thread; null once that has ended. */
  | { kind: "process"; pid: number | null }
  | { kind: "done"; answer: MediaAnswers[MediaOrder["kind"]] }
  | { kind: "refused"; code: MediaErrorCode; details: MediaErrorDetails }
  | { kind: "broken"; message: string };
