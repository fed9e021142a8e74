import { inMediaThread, type ReadingOptions } from "./mediaThread";

/** The media type of a listening copy. */
export const LISTENING_COPY_TYPE = "audio/wav";

/**
 * Writes a copy that every browser plays, for records that they do not (AIFF): WAV of 24 bits where the record has
 * more than 16, of 16 otherwise, at the record's own rate.
 * @param toPath written anew; not whole, and to be given up, when the promise rejects
 * @throws {MediaError} as `takeInFile` does
 */
export function makeListeningCopy(
  fromPath: string,
  toPath: string,
  options: ReadingOptions,
): Promise<{ byteCount: number }> {
  const { maxDurationSec, timeLimitSec, ffmpeg = "ffmpeg" } = options;
  return inMediaThread(
    { kind: "listening-copy", path: fromPath, toPath, maxDurationSec, timeLimitSec, ffmpeg },
    options,
  );
}
