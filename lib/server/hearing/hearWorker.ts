import { parentPort, workerData } from "node:worker_threads";
import { encodePeaks } from "@/lib/contracts/peaks";
import { hear } from "@/lib/hearing/hear";
import { decodeHere } from "../media/decode";
import { makePeaks } from "../media/peaks";
import { toMono } from "../media/toMono";
import type { EarOrder, EarWord } from "./earMessages";
import { readLearnedEar } from "./earWeights";
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

async function decodeToMono(): Promise<{ samples: Float32Array; sampleRateHz: number }> {
  progress("decode", 0);
  const { channels, sampleRateHz } = await decodeHere(order.path, {
    maxDurationSec: order.maxDurationSec,
    timeLimitSec: order.timeLimitSec,
    ffmpeg: order.ffmpeg,
    onProgress: (fraction) => progress("decode", fraction),
    onProcess: (pid) => say({ kind: "process", pid }),
  });
  progress("peaks", 0);
  if (order.peaksWanted) say({ kind: "peaks", data: encodePeaks(makePeaks(channels, sampleRateHz)) });
  return { samples: toMono(channels), sampleRateHz };
}

try {
  const { samples, sampleRateHz } = await decodeToMono();
  const ear = await readLearnedEar();
  say({ kind: "heard", hearing: hear(samples, sampleRateHz, { onProgress: progress, ear }) });
} catch (fault) {
  say({ kind: "fault", message: fault instanceof Error ? (fault.stack ?? fault.message) : String(fault) });
}
