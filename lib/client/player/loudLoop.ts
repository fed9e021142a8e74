import { rms } from "@/lib/dsp/rms";
import type { Seconds } from "@/lib/units/quantities";

/**
 * Whether somebody has looped loud music for long. The page cannot know how loud it is at the ear, only the
 * level it sends out, so these are local choices, on the careful side.
 */
export interface LoudLoop {
  /** Loud time so far; quiet or still time gives it back at the same pace. */
  loudSec: Seconds;
  isCautioned: boolean;
}

/** Level from which output counts as loud: root mean square against full scale. */
const LOUD_DBFS = -20;
/** Loud looping after which the page says so. */
export const CAUTION_AFTER_SEC = 15 * 60;

export const NOT_LOUD: LoudLoop = { loudSec: 0, isCautioned: false };

/** One step of listening, `elapsedSec` long. */
export function listenOn(
  state: LoudLoop,
  step: { elapsedSec: Seconds; isLooping: boolean; levelDbfs: number },
): LoudLoop {
  const isLoud = step.isLooping && step.levelDbfs >= LOUD_DBFS;
  const loudSec = isLoud
    ? Math.min(CAUTION_AFTER_SEC, state.loudSec + step.elapsedSec)
    : Math.max(0, state.loudSec - step.elapsedSec);
  // Once shown, the caution stays until half the time was given back, so that it does not flicker.
  const isCautioned = state.isCautioned ? loudSec > CAUTION_AFTER_SEC / 2 : loudSec >= CAUTION_AFTER_SEC;
  return { loudSec, isCautioned };
}

/** Level of a block of samples against full scale, in dBFS; -Infinity for silence. */
export function levelDbfs(samples: Float32Array): number {
  return 20 * Math.log10(rms(samples));
}
