import { stat } from "node:fs/promises";
import type { Declared } from "./declaredType";
import { MediaError, tooLarge } from "./MediaError";
import { inMediaThread, type ReadingOptions } from "./mediaThread";
import type { RecordFacts, RecordLimits } from "./RecordFacts";

/**
 * Reads a record that someone wants to add to its last sample, in a thread of its own, and tells what it is.
 * @param declared what it came under; a name or media type that says another format than the bytes is refused
 * @throws {MediaError} with any of the codes; rejects with the signal's reason when that ends it
 */
export async function inspectRecord(
  path: string,
  declared: Declared,
  limits: RecordLimits,
  options: Pick<ReadingOptions, "signal" | "ffmpeg" | "onProgress"> = {},
): Promise<RecordFacts> {
  const { size } = await stat(path);
  if (size === 0) throw new MediaError("empty");
  if (size > limits.maxBytes) throw tooLarge(limits.maxBytes);
  const { maxDurationSec, timeLimitSec } = limits;
  const { ffmpeg = "ffmpeg" } = options;
  return inMediaThread(
    { kind: "inspect", path, declared, maxDurationSec, timeLimitSec, ffmpeg },
    { ...options, timeLimitSec },
  );
}
