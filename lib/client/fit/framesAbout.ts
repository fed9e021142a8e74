import type { FrameRange } from "@/lib/contracts/earCopy";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Hertz, Seconds } from "@/lib/units/quantities";

/** Looked at on either side of a passage: half of the longest window, and what sounded before it. */
const MARGIN_SEC: Seconds = 0.5;

/** The frames of a record that a passage is looked at from. */
export function framesAbout({ startSec, endSec }: HeardStretch, sampleRateHz: Hertz): FrameRange {
  return {
    startFrame: Math.max(0, Math.floor((startSec - MARGIN_SEC) * sampleRateHz)),
    endFrame: Math.ceil((endSec + MARGIN_SEC) * sampleRateHz),
  };
}
