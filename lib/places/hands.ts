/**
 * What picking hands are made for; beyond it a place costs more, and is left out nowhere (what feet and knees cannot do
 * is: `lib/instrument/holdable.ts`). Picks: playpedalsteel.com practice-tips. Spread of the hand: local proposal.
 */
export const HANDS = {
  /** Thumb, index and middle finger; a fourth string where the player picks with the ring finger too. */
  stringsPerPick: 3,
  /** Distance between the outer strings of one pick, as a difference of string numbers. */
  stringSpan: 7,
} as const;
