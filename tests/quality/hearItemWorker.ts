import { parentPort } from "node:worker_threads";
import { toAnalysis } from "@/lib/cli/analysisJson";
import { hearRecord } from "@/lib/hearing/hear";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { decodeHere } from "@/lib/server/media/decode";
import { IntakeReceiver } from "@/lib/server/media/IntakeReceiver";
import { playOwn } from "./own/playOwn";
import type { Outcome, Prediction } from "./prediction";
import type { Source } from "./Subject";
import { threadCpuSec } from "./threadCpu";

// The signal alone is heard where this is set to "off".
const ear = process.env.LIFTBOOK_QUALITY_EAR === "off" ? null : await readLearnedEar();
const LIMITS = { maxDurationSec: 3_600, timeLimitSec: 600, ffmpeg: "ffmpeg" };

function since(startSec: number | null): number | null {
  const now = threadCpuSec();
  return now === null || startSec === null ? null : now - startSec;
}

async function hearSource(source: Source): Promise<Outcome> {
  const receiver = new IntakeReceiver();
  // Playing our own songs is not the ear's work.
  const played = source.kind === "own" ? playOwn(source.song, source.damage) : null;
  const startSec = threadCpuSec();
  try {
    if (played) {
      receiver.begin(played.channels.length, played.sampleRateHz);
      receiver.take(played.channels, played.channels[0]!.length);
    } else if (source.kind === "file") {
      await decodeHere(source.path, { ...LIMITS, receiver });
    }
    const hearing = hearRecord(receiver.finish(), { ear });
    const prediction: Prediction = { ...toAnalysis(hearing), hearing };
    return { prediction, cpuSec: since(startSec) };
  } catch (fault) {
    return { fault: fault instanceof Error ? fault.message : String(fault), cpuSec: since(startSec) };
  }
}

parentPort?.on("message", async (source: Source) => {
  parentPort?.postMessage(await hearSource(source));
});
