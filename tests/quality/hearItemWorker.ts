import { parentPort } from "node:worker_threads";
import { toAnalysis } from "@/lib/cli/analysisJson";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { hearRecord } from "@/lib/hearing/hear";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { predictNotes } from "./notes/predictNotes";
import type { Outcome, Prediction } from "./prediction";
import type { Source } from "./Subject";
import { soundOf, takeSound } from "./takeSound";
import { threadCpuSec } from "./threadCpu";

// The signal alone is heard where this is set to "off".
const ears = process.env.LIFTBOOK_QUALITY_EAR === "off" ? null : await readLearnedEars();

function since(startSec: number | null): number | null {
  const now = threadCpuSec();
  return now === null || startSec === null ? null : now - startSec;
}

async function hearSource(source: Source, passage: HeardStretch | null): Promise<Outcome> {
  // Playing our own songs is not the ear's work.
  const sound = soundOf(source);
  const startSec = threadCpuSec();
  try {
    const record = await takeSound(sound);
    const decodedSec = since(startSec);
    // Notes are heard on demand, so they are no part of what hearing a record takes; hearing uses the samples up.
    const notes = ears?.notesEar && passage ? predictNotes(record, ears.notesEar, passage) : undefined;
    const hearingFromSec = threadCpuSec();
    const hearing = hearRecord(record, { ...ears });
    const hearingSec = since(hearingFromSec);
    const prediction: Prediction = { ...toAnalysis(hearing), hearing, ...(notes && { notes }) };
    const cpuSec = decodedSec === null || hearingSec === null ? null : decodedSec + hearingSec;
    return { prediction, cpuSec };
  } catch (fault) {
    return { fault: fault instanceof Error ? fault.message : String(fault), cpuSec: since(startSec) };
  }
}

parentPort?.on("message", async ({ source, passage }: { source: Source; passage: HeardStretch | null }) => {
  parentPort?.postMessage(await hearSource(source, passage));
});
