import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import { decodeHere } from "@/lib/server/media/decode";
import { IntakeReceiver } from "@/lib/server/media/IntakeReceiver";
import { findItemSets } from "../itemSets";
import { type BeatSample, beatSamples } from "./beatSamples";

const LIMITS = { maxDurationSec: 3_600, timeLimitSec: 600, ffmpeg: "ffmpeg" };

/** The samples of every record of the evaluation folder with annotated beats. */
export async function gatherBeatSamples(
  ear: LearnedEar | null,
  onRecord: (id: string) => void,
): Promise<BeatSample[]> {
  const gathered: BeatSample[] = [];
  for (const { subjects } of findItemSets().evaluation) {
    for (const { id, source, truth } of subjects) {
      if (source.kind !== "file" || !truth.beats) continue;
      onRecord(id);
      const receiver = new IntakeReceiver();
      await decodeHere(source.path, { ...LIMITS, receiver });
      const { signal, durationSec } = receiver.finish();
      const samples = signal.read(0, new Float32Array(Math.floor(durationSec * HEARING_RATE_HZ)));
      gathered.push(...beatSamples(id, samples, truth.beats, ear));
    }
  }
  return gathered;
}
