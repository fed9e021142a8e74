/**
 * How far picking hands reach; beyond it a place costs more, and is left out nowhere (what feet and knees cannot do is:
 * `lib/instrument/holdable.ts`). Local proposal.
 */
export const HANDS = {
  /** Distance between the outer strings of one pick, as a difference of string numbers. */
  stringSpan: 7,
} as const;
