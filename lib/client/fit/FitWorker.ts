import type { FitAnswer } from "@/lib/fit/FitAnswer";
import type { Cents } from "@/lib/units/quantities";
import type { RecordStretch } from "../record/RecordStretch";
import type { AskedFit, FitOrder, FitWord } from "./fitMessages";

/** An answer, or in words why there is none. */
export type FitOutcome = { answer: FitAnswer } | { refused: string };

interface Waiting {
  onOutcome(at: number, outcome: FitOutcome): void;
  settle(fault: string | null): void;
}

const NOT_STARTED =
  "Guesses cannot be held against the record in this browser, because its worker did not start. Nothing was changed. Load the page anew and try again.";

function startWorker(): Worker {
  return new Worker(new URL("./fitThread.ts", import.meta.url), { type: "module", name: "fit" });
}

/** The worker that holds guesses against the record, from the page's side: started when it is first wanted, and kept. */
export class FitWorker {
  private worker: Worker | null = null;
  private readonly waiting = new Map<number, Waiting>();
  private count = 0;

  /** @param start starts a worker with the body of fitThread.ts */
  constructor(private readonly start: () => Worker = startWorker) {}

  /** Has ready what a record in this tuning is looked at with. */
  warm(tuningCents: Cents): void {
    this.send({ kind: "warm", tuningCents });
  }

  /**
   * Holds guesses against one stretch of the record.
   * @param stretch is given away
   * @param onOutcome told each as it comes; not after the signal ended it
   * @throws Error in words for people; the signal's reason where that ended it
   */
  fit(
    stretch: RecordStretch,
    tuningCents: Cents | null,
    asked: AskedFit[],
    onOutcome: (at: number, outcome: FitOutcome) => void,
    signal?: AbortSignal,
  ): Promise<void> {
    return new Promise((resolve, reject) => {
      if (signal?.aborted) return reject(signal.reason);
      const id = this.count++;
      const stop = () => {
        // What is under way is a few looks; its answers are let go by.
        this.waiting.delete(id);
        reject(signal?.reason);
      };
      signal?.addEventListener("abort", stop, { once: true });
      this.waiting.set(id, {
        onOutcome,
        settle: (fault) => {
          this.waiting.delete(id);
          signal?.removeEventListener("abort", stop);
          if (fault === null) resolve();
          else reject(new Error(fault));
        },
      });
      const { mid, side } = stretch;
      this.send({ kind: "fit", id, stretch, tuningCents, asked }, [
        mid.buffer,
        ...(side ? [side.buffer] : []),
      ]);
    });
  }

  close(): void {
    this.worker?.terminate();
    this.worker = null;
    for (const each of [...this.waiting.values()]) each.settle("The page was left before this was told.");
  }

  private send(order: FitOrder, given: ArrayBuffer[] = []): void {
    this.worker ??= this.begin();
    this.worker.postMessage(order, given);
  }

  private begin(): Worker {
    const worker = this.start();
    worker.onmessage = ({ data }: MessageEvent<FitWord>) => {
      const waiting = this.waiting.get(data.id);
      if (data.kind === "answer") waiting?.onOutcome(data.at, { answer: data.answer });
      else if (data.kind === "refused") waiting?.onOutcome(data.at, { refused: data.message });
      else waiting?.settle(data.kind === "fault" ? data.message : null);
    };
    worker.onerror = () => {
      worker.terminate();
      this.worker = null;
      for (const each of [...this.waiting.values()]) each.settle(NOT_STARTED);
    };
    return worker;
  }
}
