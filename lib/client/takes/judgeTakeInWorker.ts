import type { Take } from "@/lib/contracts/takes";
import type { TakeJudged } from "@/lib/fit/takes/TakeJudged";
import type { TakeStroke } from "@/lib/fit/takes/TakeStroke";
import type { Cents } from "@/lib/units/quantities";
import type { JudgeOrder, JudgeWord } from "./judgeMessages";

/** A take's sound and how it lies on the record, as `lib/contracts/takes.ts` says it. */
export interface TakeToJudge
  extends Pick<Take, "startSec" | "endSec" | "speed" | "leadSec" | "sampleRateHz" | "shiftCents"> {
  /** One or two channels of the same length; their average is judged. They are not given away. */
  channels: readonly Float32Array[];
}

export interface JudgingOptions {
  /** Ends it at once, the worker too; the promise then rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Told, 0 to 1, how far it is. */
  onProgress?: (fraction: number) => void;
  /** Starts a worker with the body of judgeThread.ts; for tests another. */
  start?: () => Worker;
}

const NOT_STARTED =
  "This take could not be held against the part in this browser, because its worker did not start. The take is kept. Load the page anew and try again.";

function startWorker(): Worker {
  return new Worker(new URL("./judgeThread.ts", import.meta.url), { type: "module", name: "judge" });
}

/**
 * Holds a take against the part in a worker of its own, which is ended with its answer: the page only copies the sound. Some
 * 50 ms of work a stroke.
 *
 * Usual: `judgeTakeInWorker({ ...take, channels }, takeStrokes(song.part, copedent), tuningCents, { signal })`, then
 * `TakeShelf` keeps what comes, `countTake.ts` counts it where it is clean, and `takeWords.ts` tells it.
 * @param strokes of the part that was in hand, all of them (`takeStrokes.ts`); those outside of the take are left out
 * @param tuningCents of the record; null where it is not known: it is then taken to stand at A4 = 440 Hz
 * @throws Error in words for people; the signal's reason where that ended it
 */
export function judgeTakeInWorker(
  take: TakeToJudge,
  strokes: readonly TakeStroke[],
  tuningCents: Cents | null,
  { signal, onProgress, start = startWorker }: JudgingOptions = {},
): Promise<TakeJudged> {
  return new Promise((resolve, reject) => {
    if (signal?.aborted) return reject(signal.reason);
    const worker = start();
    const end = () => {
      worker.terminate();
      signal?.removeEventListener("abort", stop);
    };
    const stop = () => {
      end();
      reject(signal?.reason);
    };
    signal?.addEventListener("abort", stop, { once: true });
    worker.onmessage = ({ data }: MessageEvent<JudgeWord>) => {
      if (data.kind === "progress") return onProgress?.(data.fraction);
      end();
      if (data.kind === "judged") resolve(data.judged);
      else
        reject(
          new Error(`This take could not be held against the part (${data.why}) The take itself is kept.`),
        );
    };
    worker.onerror = () => {
      end();
      reject(new Error(NOT_STARTED));
    };
    const { startSec, endSec, speed, leadSec, sampleRateHz, shiftCents } = take;
    const samples = averageOf(take.channels);
    const order: JudgeOrder = {
      take: { samples, sampleRateHz, startSec, endSec, speed, leadSec },
      strokes,
      tuningCents: (tuningCents ?? 0) + shiftCents,
    };
    worker.postMessage(order, [samples.buffer]);
  });
}

/** A copy, which is given away. */
function averageOf(channels: readonly Float32Array[]): Float32Array<ArrayBuffer> {
  const average = new Float32Array(channels[0]?.length ?? 0);
  for (const channel of channels)
    for (let i = 0; i < average.length; i++) average[i]! += channel[i]! / channels.length;
  return average;
}
