import type { Seconds } from "@/lib/units/quantities";
import type { HeardBassNote } from "../Hearing";
import { type BassEvidence, LOWEST_BASS } from "./BassEvidence";
import { walkBass } from "./bassWalk";
import { beginnings } from "./beginnings";
import { BASS } from "./parameters";

/**
 * The notes of the bass, in order and without overlap.
 * @param beatsSec beat times in order
 */
export function hearBassLine(
  evidence: BassEvidence,
  beatsSec: readonly Seconds[],
  durationSec: Seconds,
): HeardBassNote[] {
  const { startSec, frameRateHz, sounding } = evidence;
  const begins = beginnings(beatsSec, { startSec, frameRateHz, count: sounding.rows });
  const atFrame = (frame: number): Seconds =>
    Math.max(0, Math.min(durationSec, startSec + frame / frameRateHz));
  return walkBass(evidence, begins)
    .map(({ pitch, from, to, certain }) => ({
      startSec: atFrame(from),
      endSec: atFrame(to),
      midi: LOWEST_BASS + pitch,
      confidence: BASS.confidenceCeiling * certain ** BASS.confidencePower,
    }))
    .filter((note) => note.endSec > note.startSec);
}
