import type { Seconds } from "@/lib/units/quantities";

/** How the record runs while somebody taps. */
export interface RunningRecord {
  /** What the player says when it is asked. */
  timeSec: Seconds;
  speed: number;
  /** Whether that is what is heard already, or what is sent out and heard a little later. */
  isAsHeard: boolean;
  /** How long sound takes from the page to the ears, as far as the browser tells. */
  outputSec: Seconds;
}

/**
 * Where in the record somebody tapped: what was heard when the key went down, not what the player had come to when the page
 * was told of it.
 * @param sinceMs how long ago the key went down
 */
export function heardTime({ timeSec, speed, isAsHeard, outputSec }: RunningRecord, sinceMs: number): Seconds {
  const onItsWaySec = isAsHeard ? 0 : Math.min(0.5, Math.max(0, outputSec));
  const lateSec = Math.min(0.5, Math.max(0, sinceMs / 1000)) + onItsWaySec;
  return Math.max(0, timeSec - lateSec * speed);
}
