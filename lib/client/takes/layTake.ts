import type { Hertz, Seconds } from "@/lib/units/quantities";
import type { Sounding } from "../player/Playback";

/** Sound that is kept before the record's start was heard, at most. */
export const LEAD_SEC: Seconds = 0.5;
/** Sound that is kept after its end. */
export const TAIL_SEC: Seconds = 0.75;

/** How a take lies in what was captured. */
export interface TakeLaid {
  /** Of the audio context; the last not counted. */
  fromFrame: number;
  toFrame: number;
  /** Of the take's sound, before the record's `startSec` was heard. */
  leadSec: Seconds;
}

/**
 * Lays captured sound onto the record. What the record gives out at a frame of the audio context is played to by the player
 * when it has come to the ears, and comes in by the microphone later still: by `delaySec` in all, which is taken off here.
 * @param sounding which second of the record was given out at which time of the context; it went on at one speed
 * @param captured frames of the context from the first that was captured to the one after the last
 * @returns null where nothing of the stretch was captured
 */
export function layTake({
  sounding,
  startSec,
  endSec,
  delaySec,
  rateHz,
  captured,
}: {
  sounding: Sounding;
  /** Of the record. */
  startSec: Seconds;
  endSec: Seconds;
  delaySec: Seconds;
  rateHz: Hertz;
  captured: { startFrame: number; endFrame: number };
}): TakeLaid | null {
  const frameOf = (recordSec: Seconds): number =>
    (sounding.atSec + (recordSec - sounding.sec) / sounding.speed + delaySec) * rateHz;
  const startFrame = frameOf(startSec);
  // Whole frames are cut; what is over counts as lead.
  const firstFrame = Math.min(captured.startFrame, Math.floor(startFrame));
  const fromFrame = Math.max(firstFrame, Math.round(startFrame - LEAD_SEC * rateHz));
  const toFrame = Math.min(captured.endFrame, Math.round(frameOf(endSec) + TAIL_SEC * rateHz));
  if (toFrame <= startFrame || toFrame <= fromFrame) return null;
  return { fromFrame, toFrame, leadSec: (startFrame - fromFrame) / rateHz };
}

/** The frame that has to be captured for a take to be whole. */
export function lastFrameOf(
  sounding: Sounding,
  { endSec, delaySec, rateHz }: { endSec: Seconds; delaySec: Seconds; rateHz: Hertz },
): number {
  return Math.ceil(
    (sounding.atSec + (endSec - sounding.sec) / sounding.speed + delaySec + TAIL_SEC) * rateHz,
  );
}
