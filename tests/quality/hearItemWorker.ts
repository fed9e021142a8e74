import { parentPort } from "node:worker_threads";
import { toAnalysis } from "@/lib/cli/analysisJson";
import { hearRecord } from "@/lib/hearing/hear";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { decodeHere } from "@/lib/server/media/decode";
import { IntakeReceiver } from "@/lib/server/media/IntakeReceiver";
import type { Outcome, Prediction } from "./prediction";

// The signal alone is heard where this is set to "off".
const ear = process.env.LIFTBOOK_QUALITY_EAR === "off" ? null : await readLearnedEar();
const LIMITS = { maxDurationSec: 3_600, timeLimitSec: 600, ffmpeg: "ffmpeg" };

async function hearFile(path: string): Promise<Prediction> {
  const receiver = new IntakeReceiver();
  await decodeHere(path, { ...LIMITS, receiver });
  return toAnalysis(hearRecord(receiver.finish(), { ear }));
}

parentPort?.on("message", async (path: string) => {
  const startedMs = performance.now();
  const computeSec = () => (performance.now() - startedMs) / 1_000;
  let outcome: Outcome;
  try {
    const prediction = await hearFile(path);
    outcome = { prediction, computeSec: computeSec() };
  } catch (fault) {
    outcome = { fault: fault instanceof Error ? fault.message : String(fault), computeSec: computeSec() };
  }
  parentPort?.postMessage(outcome);
});
