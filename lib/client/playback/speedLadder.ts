import type { SpeedLadder } from "@/lib/document/records/ListeningSettings";

/**
 * The speed after so many times through: a step after each `times`, toward the end speed, never beyond it. An end that is
 * slower than the start leads down.
 */
export function ladderSpeed(ladder: SpeedLadder, timesThrough: number): number {
  const { startSpeed, stepSpeed, times, endSpeed } = ladder;
  const way = Math.floor(timesThrough / times) * stepSpeed;
  const speed =
    endSpeed >= startSpeed ? Math.min(endSpeed, startSpeed + way) : Math.max(endSpeed, startSpeed - way);
  return Math.round(speed * 100) / 100;
}

/** How many times through there are until the end speed is reached. */
export function timesToTop({ startSpeed, stepSpeed, times, endSpeed }: SpeedLadder): number {
  // Hundredths are whole numbers, so that no fraction is one step too many.
  const [way, step] = [Math.round(Math.abs(endSpeed - startSpeed) * 100), Math.round(stepSpeed * 100)];
  return Math.ceil(way / step) * times;
}
