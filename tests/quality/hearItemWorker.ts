import { parentPort } from "node:worker_threads";
import { toAnalysis } from "@/lib/cli/analysisJson";
import { hearRecord } from "@/lib/hearing/hear";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { judgeRecord } from "./fit/judgeRecord";
import { predictNotes } from "./notes/predictNotes";
import type { Outcome, Prediction } from "./prediction";
import type { Subject } from "./Subject";
import { soundOf, takeSound } from "./takeSound";
import { threadCpuSec } from "./threadCpu";

/** What of a record the thread is told. */
export type HeardSubject = Pick<Subject, "id" | "source" | "truth">;

// The signal alone is heard where this is set to "off".
const ears = process.env.LIFTBOOK_QUALITY_EAR === "off" ? null : await readLearnedEars();

function since(startSec: number | null): number | null {
  const now = threadCpuSec();
  return now === null || startSec === null ? null : now - startSec;
}

async function hearSubject({ id, source, truth }: HeardSubject): Promise<Outcome> {
  const passage = truth.passage?.span ?? null;
  // Playing our own songs is not the ear's work.
  const sound = soundOf(source);
  const startSec = threadCpuSec();
  try {
    const record = await takeSound(sound);
    const decodedSec = since(startSec);
    // Notes are heard on demand, so they are no part of what hearing a record takes; hearing uses the samples up.
    const notes = ears?.notesEar && passage ? predictNotes(record, ears.notesEar, passage) : undefined;
    const fits = judgeRecord({ id, truth }, record);
    const hearingFromSec = threadCpuSec();
    const hearing = hearRecord(record, { ...ears });
    const hearingSec = since(hearingFromSec);
    const prediction: Prediction = { ...toAnalysis(hearing), hearing, fits, ...(notes && { notes }) };
    const cpuSec = decodedSec === null || hearingSec === null ? null : decodedSec + hearingSec;
    return { prediction, cpuSec };
  } catch (fault) {
    return { fault: fault instanceof Error ? fault.message : String(fault), cpuSec: since(startSec) };
  }
}

parentPort?.on("message", async (subject: HeardSubject) => {
  parentPort?.postMessage(await hearSubject(subject));
});
