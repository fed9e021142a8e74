/** What a missing answer counts as: as wrong as can be. */
export const WORST_TUNING_ERROR_CENTS = 50;

/** How far a tuning is off, in cents, whole semitones aside: 0 to 50. */
export function tuningErrorCents(referenceCents: number, estimateCents: number | null): number {
  if (estimateCents === null) return WORST_TUNING_ERROR_CENTS;
  const apart = (((estimateCents - referenceCents + 50) % 100) + 100) % 100;
  return Math.abs(apart - 50);
}
