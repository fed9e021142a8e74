/**
 * What no picking hand can do, whatever the cost (feet and knees: `lib/instrument/holdable.ts`). Picks:
 * playpedalsteel.com practice-tips. Spread of the hand: local proposal.
 */
export const HARD_LIMITS = {
  /** Thumb, index and middle finger; a fourth string where the player picks with the ring finger too. */
  stringsPerPick: 3,
  stringsPerPickWithRing: 4,
  /** Distance between the outer strings of one pick, as a difference of string numbers. */
  stringSpan: 7,
} as const;

/** Whether one hand can pick these strings at once: not too many, each once, not too far apart. */
export function handCanPick(
  strings: readonly number[],
  maxStrings: number = HARD_LIMITS.stringsPerPick,
): boolean {
  if (strings.length === 0 || strings.length > maxStrings) return false;
  if (new Set(strings).size !== strings.length) return false;
  return Math.max(...strings) - Math.min(...strings) <= HARD_LIMITS.stringSpan;
}
