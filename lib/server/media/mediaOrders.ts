import type { PackedPiece } from "@/lib/dsp/PackedSignal";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import type { Declared } from "./declaredType";
import type { MediaErrorCode, MediaErrorDetails } from "./MediaError";
import type { RecordFacts } from "./RecordFacts";

/** How a thread is to read a record. */
export interface Reading {
  /** The record, a file on this machine. */
  path: string;
  maxDurationSec: Seconds;
  /** Longest that decoding may take. */
  timeLimitSec: Seconds;
  /** Name or path; null where ffmpeg must not be used. */
  ffmpeg: string | null;
}

/** A record as the ear takes it, in a shape that can pass between threads. */
export interface TakenIn {
  /** As {@link Signal} keeps them. */
  pieces: Float32Array<ArrayBuffer>[];
  length: number;
  /** As {@link PackedSignal} keeps them; null for mono. */
  sidePieces: PackedPiece[] | null;
  sampleRateHz: Hertz;
  durationSec: Seconds;
}

/** What a media thread is started with. */
export type MediaOrder =
  | (Reading & { kind: "take-in" })
  | (Reading & { kind: "inspect"; declared: Declared })
  | (Reading & { kind: "listening-copy"; toPath: string })
  | (Reading & { kind: "ear-copy"; toPath: string });

/** What each order gives. */
export interface MediaAnswers {
  "take-in": TakenIn;
  inspect: RecordFacts;
  "listening-copy": { byteCount: number };
  "ear-copy": { frameCount: number };
}

/** The process id of the ffmpeg that a thread runs, so that it can be ended with the thread; null once that has ended. */
export interface ProcessWord {
  kind: "process";
  pid: number | null;
}

/** What a media thread says; `done`, `refused` or `broken` is its last word. */
export type MediaWord =
  | { kind: "progress"; fraction: number }
  | ProcessWord
  | { kind: "done"; answer: MediaAnswers[MediaOrder["kind"]] }
  | { kind: "refused"; code: MediaErrorCode; details: MediaErrorDetails }
  | { kind: "broken"; message: string };
