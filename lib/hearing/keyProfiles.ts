/** Weights of the twelve degrees of the chromatic scale above a tonic. */
export interface KeyProfile {
  major: readonly number[];
  minor: readonly number[];
}

/**
 * Probe-tone ratings: C. L. Krumhansl and E. J. Kessler, "Tracing the dynamic changes in perceived tonal
 * organization in a spatial representation of musical keys", Psychological Review 89 (1982); tabled in
 * C. L. Krumhansl, "Cognitive Foundations of Musical Pitch", Oxford 1990, p. 30.
 */
export const KRUMHANSL_KESSLER: KeyProfile = {
  major: [6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88],
  minor: [6.33, 2.68, 3.52, 5.38, 2.6, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17],
};
