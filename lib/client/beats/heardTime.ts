import type { Seconds } from "@/lib/units/quantities";

/** How the record runs while somebody taps. */
export interface RunningRecord {
  /** What the player says when it is asked. */
  timeSec: Seconds;
  speed: number;
  /** How long sound takes from the page to the ears, as far as the browser tells. */
  outputSec: Seconds;
}

/**
 * Where in the record somebody tapped: what was heard when the key went down, not what the player had come to when the page
 * was told of it.
 * @param sinceMs how long ago the key went down
 */
export function heardTime({ timeSec, speed, outputSec }: RunningRecord, sinceMs: number): Seconds {
  const lateSec = Math.min(0.5, Math.max(0, sinceMs / 1000)) + Math.min(0.5, Math.max(0, outputSec));
  return Math.max(0, timeSec - lateSec * speed);
}
