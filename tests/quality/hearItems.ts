import type { Worker } from "node:worker_threads";
import { startThread } from "@/lib/server/threads/startThread";
import type { HeardSubject } from "./hearItemWorker";
import type { Outcome } from "./prediction";
import type { Subject } from "./Subject";

const THREADS = 2;

function hearOne(worker: Worker, { id, source, truth }: Subject): Promise<Outcome> {
  return new Promise((resolve) => {
    const settle = (outcome: Outcome) => {
      worker.off("message", settle).off("error", broke).off("exit", ended);
      resolve(outcome);
    };
    const broke = (fault: Error) => settle({ fault: fault.message, cpuSec: null });
    const ended = (code: number) => settle({ fault: `the thread ended with code ${code}`, cpuSec: null });
    worker.on("message", settle).on("error", broke).on("exit", ended);
    worker.postMessage({ id, source, truth } satisfies HeardSubject);
  });
}

/**
 * Hears every record of a set, one to a thread at a time.
 * @param onHeard called as each is done
 */
export async function hearItems(
  subjects: readonly Subject[],
  onHeard: (subject: Subject, doneCount: number) => void = () => {},
): Promise<Map<string, Outcome>> {
  const outcomes = new Map<string, Outcome>();
  const waiting = [...subjects];
  const work = async () => {
    let worker: Worker | null = null;
    for (let subject = waiting.shift(); subject; subject = waiting.shift()) {
      worker ??= startThread("tests/quality/hearItemWorker.ts");
      const outcome = await hearOne(worker, subject);
      // A thread that broke is not used again.
      if ("fault" in outcome) {
        await worker.terminate();
        worker = null;
      }
      outcomes.set(subject.id, outcome);
      onHeard(subject, outcomes.size);
    }
    await worker?.terminate();
  };
  await Promise.all(Array.from({ length: THREADS }, work));
  return outcomes;
}
