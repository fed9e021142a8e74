/**
 * Natural log of the odds of a probability, 0 to 1.
 * @param surest no probability counts as nearer to 0 or 1 than this
 */
export function logOdds(probability: number, surest = 0): number {
  const bounded = Math.min(1 - surest, Math.max(surest, probability));
  return Math.log(bounded / (1 - bounded));
}

/** The probability of log odds: the logistic function. */
export function fromLogOdds(nats: number): number {
  return 1 / (1 + Math.exp(-nats));
}
