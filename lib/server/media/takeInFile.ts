import { PackedSignal } from "@/lib/dsp/PackedSignal";
import { Signal } from "@/lib/dsp/Signal";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { inMediaThread, type ReadingOptions } from "./mediaThread";

/**
 * Decodes a record in a thread of its own and gives what the ear hears of it. The format is known by the bytes, whatever
 * the file is called.
 * @throws {MediaError} not-audio, empty, cut-short, damaged, too-long, too-large, needs-ffmpeg, time-limit; rejects with the signal's reason when that ends it
 */
export async function takeInFile(path: string, options: ReadingOptions): Promise<RecordSignal> {
  const { maxDurationSec, timeLimitSec, ffmpeg = "ffmpeg" } = options;
  const order = { kind: "take-in", path, maxDurationSec, timeLimitSec, ffmpeg } as const;
  const { pieces, length, sidePieces, sampleRateHz, durationSec } = await inMediaThread(order, options);
  return {
    signal: Signal.ofPieces(pieces, length, sampleRateHz),
    side: sidePieces && new PackedSignal(sampleRateHz, sidePieces),
    durationSec,
  };
}
