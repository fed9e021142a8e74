import { inMediaThread, type ReadingOptions } from "./mediaThread";

/**
 * Writes the copy of a record that passages are heard from (lib/contracts/earCopy.ts), in a thread of its own.
 * @param toPath written anew; not whole, and to be given up, when the promise rejects
 * @throws {MediaError} as `takeInFile` does
 */
export function makeEarCopy(
  fromPath: string,
  toPath: string,
  options: ReadingOptions,
): Promise<{ frameCount: number }> {
  const { maxDurationSec, timeLimitSec, ffmpeg = "ffmpeg" } = options;
  return inMediaThread(
    { kind: "ear-copy", path: fromPath, toPath, maxDurationSec, timeLimitSec, ffmpeg },
    options,
  );
}
