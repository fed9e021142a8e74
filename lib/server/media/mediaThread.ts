import { access, constants } from "node:fs/promises";
import type { Seconds } from "@/lib/units/quantities";
import { endProcess } from "../threads/endProcess";
import { startQuietThread } from "../threads/startThread";
import { MediaError } from "./MediaError";
import type { MediaAnswers, MediaOrder, MediaWord } from "./mediaOrders";

export interface ThreadOptions {
  /** Ends the thread at once; the promise then rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Longest that it may take. */
  timeLimitSec: Seconds;
  /** Called with 0 to 1. */
  onProgress?: (fraction: number) => void;
}

/** How a record is read in such a thread. */
export interface ReadingOptions extends ThreadOptions {
  maxDurationSec: Seconds;
  /** Name or path of the ffmpeg for rarer formats, `ffmpeg` when left out; null where it must not be used. */
  ffmpeg?: string | null;
}

/** Room for the thread's own objects; samples lie outside of it. */
const RESOURCE_LIMITS = { maxOldGenerationSizeMb: 1_024, maxYoungGenerationSizeMb: 64 };

/**
 * Runs one order in a thread of its own, so that decoding never holds up the event loop.
 * @throws {MediaError} as the order does, and time-limit; the system's error where the file cannot be read; rejects with the signal's reason when that ends it
 */
export async function inMediaThread<Kind extends MediaOrder["kind"]>(
  order: MediaOrder & { kind: Kind },
  { signal, timeLimitSec, onProgress }: ThreadOptions,
): Promise<MediaAnswers[Kind]> {
  signal?.throwIfAborted();
  // A file that is not there is no fault of the record: the system's own error says so.
  await access(order.path, constants.R_OK);
  signal?.throwIfAborted();
  const worker = startQuietThread("lib/server/media/decodeWorker.ts", {
    workerData: order,
    resourceLimits: RESOURCE_LIMITS,
  });
  let ffmpegPid: number | null = null;
  let timer: NodeJS.Timeout | undefined;
  let stop = () => {};
  try {
    return await new Promise<MediaAnswers[Kind]>((resolve, reject) => {
      stop = () => reject(signal?.reason);
      signal?.addEventListener("abort", stop, { once: true });
      timer = setTimeout(() => reject(new MediaError("time-limit")), timeLimitSec * 1_000);
      worker.on("message", (word: MediaWord) => {
        if (word.kind === "progress") onProgress?.(word.fraction);
        else if (word.kind === "process") ffmpegPid = word.pid;
        else if (word.kind === "done") resolve(word.answer as MediaAnswers[Kind]);
        else if (word.kind === "refused") reject(new MediaError(word.code, word.details));
        else reject(new Error(`the media thread broke: ${word.message}`));
      });
      worker.on("error", (fault) => reject(new Error("the media thread broke", { cause: fault })));
      worker.on("exit", (code) => reject(new Error(`the media thread ended with code ${code}`)));
    });
  } finally {
    clearTimeout(timer);
    signal?.removeEventListener("abort", stop);
    if (ffmpegPid !== null) endProcess(ffmpegPid);
    await worker.terminate();
  }
}
