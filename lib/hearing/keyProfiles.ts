/**
 * Weights of the twelve degrees of the chromatic scale above a tonic, from published studies.
 */
export interface KeyProfile {
  source: string;
  major: readonly number[];
  minor: readonly number[];
}

/**
 * Probe-tone ratings: C. L. Krumhansl and E. J. Kessler, "Tracing the dynamic changes in perceived tonal
 * organization in a spatial representation of musical keys", Psychological Review 89 (1982); tabled in
 * C. L. Krumhansl, "Cognitive Foundations of Musical Pitch", Oxford 1990, p. 30.
 */
export const KRUMHANSL_KESSLER: KeyProfile = {
  source: "Krumhansl & Kessler 1982",
  major: [6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88],
  minor: [6.33, 2.68, 3.52, 5.38, 2.6, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17],
};

/**
 * Shares of the pitch classes in a corpus of 982 pieces: J. Albrecht and D. Shanahan, "The use of large corpora
 * to train a new type of key-finding algorithm", Music Perception 31 (2013).
 */
export const ALBRECHT_SHANAHAN: KeyProfile = {
  source: "Albrecht & Shanahan 2013",
  major: [0.238, 0.006, 0.111, 0.006, 0.137, 0.094, 0.016, 0.214, 0.009, 0.08, 0.008, 0.081],
  minor: [0.22, 0.006, 0.104, 0.123, 0.019, 0.103, 0.012, 0.214, 0.062, 0.022, 0.061, 0.052],
};
