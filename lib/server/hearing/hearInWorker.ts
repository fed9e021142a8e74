import type { Hearing } from "@/lib/hearing/Hearing";
import { endProcess } from "../threads/endProcess";
import { startQuietThread } from "../threads/startThread";
import type { EarOrder, EarWord } from "./earMessages";
import type { RunStep } from "./runWeights";

/** The record itself, or the ear, would fail the same way again. */
export class EarFault extends Error {}
/** The thread ended without a last word (out of memory, say): another try may do. */
export class EarCrash extends Error {}

export interface EarEvents {
  progress(step: RunStep, fraction: number): void;
  /** The ear goes on meanwhile; the answer is awaited before the hearing is given. */
  peaks(data: Uint8Array): Promise<void>;
  /** The copy that the order asked for is whole; as with the peaks. */
  earCopy(): Promise<void>;
}

/** Room for the thread's own objects; samples lie outside of it. */
const RESOURCE_LIMITS = { maxOldGenerationSizeMb: 2_048, maxYoungGenerationSizeMb: 32 };

/**
 * Decodes and hears one record in a thread of its own.
 * @param signal ends the thread at once; the promise then rejects with the signal's reason
 * @throws {EarFault} when the record cannot be heard; {@link EarCrash} when the thread broke
 */
export async function hearInWorker(
  order: EarOrder,
  events: EarEvents,
  signal: AbortSignal,
): Promise<Hearing> {
  signal.throwIfAborted();
  const worker = startQuietThread("lib/server/hearing/hearWorker.ts", {
    workerData: order,
    resourceLimits: RESOURCE_LIMITS,
  });
  let ffmpegPid: number | null = null;
  let peaksKept: Promise<void> = Promise.resolve();
  let copyKept: Promise<void> = Promise.resolve();
  let stop = () => {};
  try {
    const hearing = await new Promise<Hearing>((resolve, reject) => {
      stop = () => reject(signal.reason);
      signal.addEventListener("abort", stop, { once: true });
      worker.on("message", (word: EarWord) => {
        if (word.kind === "progress") {
          // A page that hears of a later step may count on the waveform.
          void peaksKept.then(() => events.progress(word.step, word.fraction), reject);
        } else if (word.kind === "process") ffmpegPid = word.pid;
        else if (word.kind === "heard") resolve(word.hearing);
        else if (word.kind === "fault") reject(new EarFault(word.message));
        else if (word.kind === "peaks") {
          peaksKept = events.peaks(word.data);
          peaksKept.catch(reject);
        } else {
          copyKept = events.earCopy();
          copyKept.catch(reject);
        }
      });
      worker.on("error", (fault) => reject(new EarCrash("the hearing thread broke", { cause: fault })));
      worker.on("exit", (code) => reject(new EarCrash(`the hearing thread ended with code ${code}`)));
    });
    await peaksKept;
    await copyKept;
    return hearing;
  } finally {
    signal.removeEventListener("abort", stop);
    if (ffmpegPid !== null) endProcess(ffmpegPid);
    await worker.terminate();
  }
}
