import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import { findItemSets } from "../itemSets";
import { takeSound } from "../takeSound";
import { type BeatSample, beatSamples } from "./beatSamples";

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
      const { signal, durationSec } = await takeSound(source.path);
      const samples = signal.read(0, new Float32Array(Math.floor(durationSec * HEARING_RATE_HZ)));
      gathered.push(...beatSamples(id, samples, truth.beats, ear));
    }
  }
  return gathered;
}
