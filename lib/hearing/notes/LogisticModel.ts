import type { Certainty } from "../Hearing";
import { fromLogOdds, logOdds } from "../logOdds";

/** Evidence by name; a model takes of it what it weighs. */
export type Evidence<Name extends string> = Record<Name, number>;

/** Weights of a logistic regression (D. R. Cox, "The regression analysis of binary sequences", 1958). */
export interface LogisticModel<Name extends string> {
  bias: number;
  weights: Partial<Record<Name, number>>;
}

/** Probability that the model gives to the evidence. */
export function certainty<Name extends string>(
  { bias, weights }: LogisticModel<Name>,
  evidence: Evidence<Name>,
): Certainty {
  let sum = bias;
  for (const name of Object.keys(weights) as Name[]) sum += (weights[name] ?? 0) * evidence[name];
  return fromLogOdds(sum);
}

/** No probability of the maps counts as nearer to 0 or 1 than this. */
const SUREST = 0.001;

/** Log odds of a probability of the maps, as evidence. */
export function mapLogOdds(probability: number): number {
  return logOdds(probability, SUREST);
}
