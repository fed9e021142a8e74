import type { Hertz } from "@/lib/units/quantities";
import { ONSETS } from "../parameters";
import { FRAME_RATE_HZ } from "./EarFeatures";
import type { LearnedEvidence } from "./LearnedEar";
import { PADDING_FRAMES } from "./layout";

/** Learned beats on the time axis of the onset curves. */
export interface LearnedBeats {
  /** Probability of a beat at each frame. */
  beat: Float64Array;
  downbeat: Float64Array;
}

/**
 * Reads the network's curves at the frames of the onset curves, between its own frames on a straight line; onset
 * curves peak a little late, and so do these after it.
 * @param length frames wanted
 */
export function beatCurves(
  { beat, downbeat }: Pick<LearnedEvidence, "beat" | "downbeat">,
  frameRateHz: Hertz,
  length: number,
): LearnedBeats {
  const onAxis = (curve: Float32Array): Float64Array =>
    Float64Array.from({ length }, (_, i) => {
      const place = (i / frameRateHz - ONSETS.delaySec) * FRAME_RATE_HZ + PADDING_FRAMES;
      const low = Math.floor(place);
      const before = curve[low] ?? 0;
      return before + (place - low) * ((curve[low + 1] ?? 0) - before);
    });
  return { beat: onAxis(beat), downbeat: onAxis(downbeat) };
}
