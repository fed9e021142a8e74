/**
 * What a player does to an event besides picking it and moving it: touches the string lightly an octave (twelve frets) above
 * where it is held, so that it sounds an octave higher; shakes it; blocks it, which stops it short by palm or pick. In the
 * order in which they are listed and written.
 */
export const TECHNIQUES = ["harmonic", "vibrato", "block"] as const;
export type Technique = (typeof TECHNIQUES)[number];
