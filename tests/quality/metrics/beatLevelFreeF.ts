import { beatF } from "./beatF";

/** The best F of the beats as given, twice as many, and every other one from the first or the second on. */
export function beatLevelFreeF(reference: readonly number[], estimate: readonly number[]): number {
  const between = estimate.slice(1).map((time, i) => (time + estimate[i]!) / 2);
  const doubled = [...estimate, ...between].sort((a, b) => a - b);
  const everyOther = (first: number) => estimate.filter((_, i) => i % 2 === first);
  return Math.max(
    ...[estimate, doubled, everyOther(0), everyOther(1)].map((beats) => beatF(reference, beats)),
  );
}
