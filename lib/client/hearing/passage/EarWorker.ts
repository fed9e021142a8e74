import type { PassageNotes, PassageOrder, PassageWord } from "./passageMessages";

/** An order that the worker has not answered yet. */
interface Waiting {
  onProgress?: (fraction: number) => void;
  settle(word: Exclude<PassageWord, { kind: "progress" }>): void;
}

export interface HearingOptions {
  /** Ends the hearing at once; the promise then rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Told how far it is, 0 to 1. */
  onProgress?: (fraction: number) => void;
}

const NOT_STARTED =
  "The ear could not be started in this browser, so nothing was heard. Nothing was changed. Load the page anew and try again, or have the whole song heard.";

function startWorker(): Worker {
  return new Worker(new URL("./passageWorker.ts", import.meta.url), { type: "module", name: "ear" });
}

/**
 * The worker that hears passages, from the page's side: started when it is first wanted, and kept, with its ear, from
 * then on.
 */
export class EarWorker {
  private worker: Worker | null = null;
  /** In the order in which they were given, which is that of the answers. */
  private waiting: Waiting[] = [];

  /** @param start starts a worker with the body of passageWorker.ts */
  constructor(private readonly start: () => Worker = startWorker) {}

  /** Has the ear ready before it is wanted. Where that fails, it is told when a passage is to be heard. */
  warm(): void {
    if (!this.worker) this.order({ kind: "warm" }, { settle: () => {} });
  }

  /**
   * Hears a passage.
   * @param order the stretch's samples are given away
   * @throws Error in words for people
   */
  hear(
    order: Omit<PassageOrder & { kind: "hear" }, "kind">,
    { signal, onProgress }: HearingOptions = {},
  ): Promise<PassageNotes> {
    return new Promise((resolve, reject) => {
      if (signal?.aborted) return reject(signal.reason);
      const stop = () => {
        reject(signal?.reason);
        // The worker is deaf while it hears: it is ended, and another made ready.
        this.end();
        this.warm();
      };
      signal?.addEventListener("abort", stop, { once: true });
      const { mid, side } = order.stretch;
      const settle: Waiting["settle"] = (word) => {
        signal?.removeEventListener("abort", stop);
        if (word.kind === "heard") resolve({ version: word.version, notes: word.notes });
        else reject(new Error(word.kind === "fault" ? word.message : NOT_STARTED));
      };
      const given = [mid.buffer, ...(side ? [side.buffer] : [])];
      this.order({ kind: "hear", ...order }, { onProgress, settle }, given);
    });
  }

  close(): void {
    this.end();
  }

  private order(order: PassageOrder, waiting: Waiting, given: ArrayBuffer[] = []): void {
    this.worker ??= this.begin();
    this.waiting.push(waiting);
    this.worker.postMessage(order, given);
  }

  private begin(): Worker {
    const worker = this.start();
    worker.onmessage = ({ data }: MessageEvent<PassageWord>) => {
      if (data.kind === "progress") this.waiting[0]?.onProgress?.(data.fraction);
      else this.waiting.shift()?.settle(data);
    };
    worker.onerror = () => {
      const left = this.waiting;
      this.end();
      for (const each of left) each.settle({ kind: "fault", message: NOT_STARTED });
    };
    return worker;
  }

  private end(): void {
    this.worker?.terminate();
    this.worker = null;
    this.waiting = [];
  }
}
