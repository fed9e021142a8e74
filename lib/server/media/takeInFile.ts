import { Signal } from "@/lib/dsp/Signal";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import type { DecodeFileOptions } from "./decodeFile";
import { inMediaThread } from "./mediaThread";

/**
 * Decodes a record in a thread of its own, as `decodeFile` does, and gives what the ear hears of it.
 * @throws {MediaError} as `decodeFile` does
 */
export async function takeInFile(path: string, options: DecodeFileOptions): Promise<RecordSignal> {
  const { maxDurationSec, timeLimitSec, ffmpeg = "ffmpeg" } = options;
  const order = { kind: "take-in", path, maxDurationSec, timeLimitSec, ffmpeg } as const;
  const { pieces, length, sampleRateHz, durationSec } = await inMediaThread(order, options);
  return { signal: Signal.ofPieces(pieces, length, sampleRateHz), durationSec };
}
