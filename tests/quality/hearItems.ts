import path from "node:path";
import type { Worker } from "node:worker_threads";
import { startThread } from "@/lib/server/threads/startThread";
import type { Item, ItemSet } from "./items";
import type { Outcome } from "./prediction";

const THREADS = 2;

function hearOne(worker: Worker, file: string): Promise<Outcome> {
  return new Promise((resolve) => {
    const settle = (outcome: Outcome) => {
      worker.off("message", settle).off("error", broke).off("exit", ended);
      resolve(outcome);
    };
    const broke = (fault: Error) => settle({ fault: fault.message, computeSec: 0 });
    const ended = (code: number) => settle({ fault: `the thread ended with code ${code}`, computeSec: 0 });
    worker.on("message", settle).on("error", broke).on("exit", ended);
    worker.postMessage(file);
  });
}

/**
 * Hears every item of a set, an item to a thread at a time.
 * @param onHeard called as each is done
 */
export async function hearItems(
  { folder, items }: ItemSet,
  onHeard: (item: Item, outcome: Outcome, doneCount: number) => void = () => {},
): Promise<Map<string, Outcome>> {
  const outcomes = new Map<string, Outcome>();
  const waiting = [...items];
  const work = async () => {
    let worker: Worker | null = null;
    for (let item = waiting.shift(); item; item = waiting.shift()) {
      worker ??= startThread("tests/quality/hearItemWorker.ts");
      const outcome = await hearOne(worker, path.join(folder, item.audio));
      // A thread that broke is not used again.
      if ("fault" in outcome) {
        await worker.terminate();
        worker = null;
      }
      outcomes.set(item.id, outcome);
      onHeard(item, outcome, outcomes.size);
    }
    await worker?.terminate();
  };
  await Promise.all(Array.from({ length: THREADS }, work));
  return outcomes;
}
