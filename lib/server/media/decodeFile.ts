import type { Seconds } from "@/lib/units/quantities";
import type { DecodedAudio } from "./DecodedAudio";
import { inMediaThread } from "./mediaThread";

export interface DecodeFileOptions {
  /** Ends decoding at once; the promise then rejects with the signal's reason. */
  signal?: AbortSignal;
  maxDurationSec: Seconds;
  /** Longest that decoding may take. */
  timeLimitSec: Seconds;
  /** Name or path of the ffmpeg for rarer formats, `ffmpeg` when left out; null where it must not be used. */
  ffmpeg?: string | null;
  /** Called with 0 to 1. */
  onProgress?: (fraction: number) => void;
}

/**
 * Decodes a record to samples in a thread of its own. The format is known by the bytes, whatever the file is called.
 * @throws {MediaError} not-audio, empty, cut-short, damaged, too-long, too-large, needs-ffmpeg, time-limit
 */
export function decodeFile(path: string, options: DecodeFileOptions): Promise<DecodedAudio> {
  const { maxDurationSec, timeLimitSec, ffmpeg = "ffmpeg" } = options;
  return inMediaThread({ kind: "decode", path, maxDurationSec, timeLimitSec, ffmpeg }, options);
}
