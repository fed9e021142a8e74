import { parentPort, workerData } from "node:worker_threads";
import { PeakMaker } from "@/lib/contracts/PeakMaker";
import { encodePeaks } from "@/lib/contracts/peaks";
import { hearRecord } from "@/lib/hearing/hear";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { decodeHere } from "../media/decode";
import { EarCopyFile } from "../media/EarCopyFile";
import { EarCopyMaker } from "../media/EarCopyMaker";
import { IntakeReceiver } from "../media/IntakeReceiver";
import { ToAll } from "../media/SampleReceiver";
import type { EarOrder, EarWord } from "./earMessages";
import { readLearnedEars } from "./earWeights";
import type { RunStep } from "./runWeights";

/** The body of a hearing thread: it decodes the record itself, so that no samples travel between threads. */
const order = workerData as EarOrder;
const PROGRESS_EVERY_MS = 100;

let toldAt = 0;
let toldStep: RunStep | null = null;

function say(word: EarWord): void {
  parentPort?.postMessage(word);
}

function progress(step: RunStep, fraction: number): void {
  const now = Date.now();
  if (step === toldStep && now - toldAt < PROGRESS_EVERY_MS) return;
  toldAt = now;
  toldStep = step;
  say({ kind: "progress", step, fraction });
}

async function takeIn(): Promise<RecordSignal> {
  progress("decode", 0);
  const intake = new IntakeReceiver();
  const peaks = order.peaksWanted ? new PeakMaker() : null;
  const copyFile = order.earCopyPath === null ? null : new EarCopyFile(order.earCopyPath);
  const copy = copyFile && new EarCopyMaker(copyFile);
  await decodeHere(order.path, {
    maxDurationSec: order.maxDurationSec,
    timeLimitSec: order.timeLimitSec,
    ffmpeg: order.ffmpeg,
    receiver: new ToAll([intake, peaks, copy].filter((each) => each !== null)),
    onProgress: (fraction) => progress("decode", fraction),
    onProcess: (pid) => say({ kind: "process", pid }),
  });
  progress("peaks", 0);
  copy?.finish();
  copyFile?.close();
  if (copy) say({ kind: "ear-copy" });
  if (peaks) say({ kind: "peaks", data: encodePeaks(peaks.finish()) });
  return intake.finish();
}

try {
  const record = await takeIn();
  const ears = await readLearnedEars();
  say({ kind: "heard", hearing: hearRecord(record, { onProgress: progress, ...ears, notes: true }) });
} catch (fault) {
  say({ kind: "fault", message: fault instanceof Error ? (fault.stack ?? fault.message) : String(fault) });
}
