import { MOST_STAGE_ID_CHARACTERS } from "../stages";

/**
 * How large a chart may be. The widest necks in use have fewer strings and changes; beyond these a chart is a slip or
 * meant to do harm.
 */
export const CHART_LIMITS = {
  strings: 16,
  frets: 36,
  changes: 16,
  /** Ordered stages of one change. */
  stages: 4,
  /** A move up or down. */
  semitones: 12,
  /** An id, that of the deepest stage included; as long as the shared song takes them. */
  idCharacters: MOST_STAGE_ID_CHARACTERS,
  labelCharacters: 60,
  nameCharacters: 80,
  sourceCharacters: 400,
  combinations: 64,
  grips: 32,
  /** Sets of stages that feet and knees can hold at once: all of them are searched. E9 has 288. */
  holdableSets: 4096,
} as const;
