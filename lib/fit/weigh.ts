import type { LogisticModel } from "@/lib/hearing/notes/LogisticModel";

const factors = new Map<string, readonly string[]>();

/** Value of a term of a model: an evidence by its name, or the product of two, as in `heard*peaks`. */
export function termValue(evidence: Readonly<Record<string, number>>, term: string): number {
  let names = factors.get(term);
  if (!names) {
    names = term.split("*");
    factors.set(term, names);
  }
  let value = 1;
  for (const name of names) value *= evidence[name] ?? 0;
  return value;
}

/** Log odds that a model gives to evidence; its terms may be products. */
export function weigh(
  { bias, weights }: LogisticModel<string>,
  evidence: Readonly<Record<string, number>>,
): number {
  let sum = bias;
  for (const term in weights) sum += weights[term]! * termValue(evidence, term);
  return sum;
}

/** Natural log of the probability of log odds, without loss of precision at either end. */
export function logProbability(nats: number): number {
  return nats > 0 ? -Math.log1p(Math.exp(-nats)) : nats - Math.log1p(Math.exp(nats));
}
