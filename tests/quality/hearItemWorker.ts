import { parentPort } from "node:worker_threads";
import { toAnalysis } from "@/lib/cli/analysisJson";
import { hearRecord } from "@/lib/hearing/hear";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { decodeHere } from "@/lib/server/media/decode";
import { IntakeReceiver } from "@/lib/server/media/IntakeReceiver";
import type { Passage } from "./metrics/noteScore";
import { predictNotes } from "./notes/predictNotes";
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

async function hearSource(source: Source, passage: Passage | null): Promise<Outcome> {
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
    const record = receiver.finish();
    const decodedSec = since(startSec);
    // Notes are heard on demand, so they are no part of what hearing a record takes; hearing uses the samples up.
    const notes = ear && passage ? predictNotes(record.signal, ear, passage) : undefined;
    const hearingFromSec = threadCpuSec();
    const hearing = hearRecord(record, { ear });
    const hearingSec = since(hearingFromSec);
    const prediction: Prediction = { ...toAnalysis(hearing), hearing, ...(notes && { notes }) };
    const cpuSec = decodedSec === null || hearingSec === null ? null : decodedSec + hearingSec;
    return { prediction, cpuSec };
  } catch (fault) {
    return { fault: fault instanceof Error ? fault.message : String(fault), cpuSec: since(startSec) };
  }
}

parentPort?.on("message", async ({ source, passage }: { source: Source; passage: Passage | null }) => {
  parentPort?.postMessage(await hearSource(source, passage));
});
