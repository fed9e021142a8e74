/** How far a tempo may be off (MIREX audio tempo estimation uses 4 % for one tempo). */
const TOLERANCE = 0.04;
/** The levels at which people tap the same music. */
const LEVELS = [1, 2, 3, 1 / 2, 1 / 3] as const;

/** @param tolerance share of the reference by which the estimate may be off */
export function isTempoNear(referenceBpm: number, estimateBpm: number, tolerance: number): boolean {
  return estimateBpm > 0 && Math.abs(estimateBpm - referenceBpm) <= tolerance * referenceBpm;
}

/** Whether the tempo is right, and whether it is right at some level: the same, two or three times as fast or slow. */
export function tempoScore(referenceBpm: number, estimateBpm: number): { exact: boolean; anyLevel: boolean } {
  const within = (level: number) => isTempoNear(referenceBpm * level, estimateBpm, TOLERANCE);
  return { exact: within(1), anyLevel: LEVELS.some(within) };
}
