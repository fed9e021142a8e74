/** The numbers of the form. "Set here" is meant as in the ear's other parameters. */

/** The form: sections and what repeats. */
export const FORM = {
  /** Share of all classes alike in how common chords are. */
  evenShare: 0.1,
  /** Probability that a beat of a repeat has another chord all the same: heard wrongly, or played otherwise. */
  variation: 0.3,
  /** Nats; records that differ less from bar to bar than this are not made more of. */
  leastOwn: 0.5,
  /** In bars that need not be told: what a section costs, a transposition, each bar of a repeat, and each that it has too much or too little. Set here. */
  sectionCost: 1,
  transposeCost: 2.5,
  repeatBar: 0.2,
  oddBar: 0.7,
  /** What each bar costs that a section is shorter than usual. */
  shortBar: 0.25,
  usualBars: 8,
  /** What a length costs that is not a multiple of four bars, or not even of two. */
  notInFours: 0.75,
  notInTwos: 1.25,
  /** Sections are sought from cuts in so many bars, each bar as the first cut. */
  gridBars: 8,
  leastGain: 1e-6,
  /**
   * Comparisons of two sections at one pitch that the search makes for each bar, so that the time grows with the record
   * and no faster; it ends by itself before that in songs of up to some 250 bars.
   */
  effortPerBar: 750_000,
  /** Runs of bars alike, from this long on, that the search goes out from as well. */
  shortestRun: 4,
  runsTried: 16,
  /** Nats of confidence for each bar that a repeat saves, and the most that is ever claimed. */
  confidencePerBar: 0.5,
  confidenceCeiling: 0.97,
  /** Bars of a repeat that are less alike than this are not taken for the same. */
  surelyAlike: 0.5,
  /** Bars this much alike share what is heard of their chords. Set here. */
  alikeEnoughToShare: 0.8,
  /**
   * A stretch takes from its repeats where its likeliest chord is less likely than this. Set here: over annotated
   * recordings nothing is heard otherwise; where surer stretches take as well, sevenths lose two thousandths, because
   * repeats are often played with another colour.
   */
  unsureUnder: 0.4,
} as const;
