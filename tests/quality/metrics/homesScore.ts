import { type NamedKey, weightedKeyScore } from "./keyScore";
import { piecesOf } from "./pieces";

export interface HomeSpan extends NamedKey {
  startSec: number;
  endSec: number;
}

/** Share of the time over which the right tonic and mode are given. */
export function homesScore(reference: readonly HomeSpan[], estimate: readonly HomeSpan[]): number {
  let right = 0;
  let total = 0;
  for (const { startSec, endSec, reference: wanted, estimate: given } of piecesOf(reference, estimate)) {
    total += endSec - startSec;
    if (given && weightedKeyScore(wanted, given) === 1) right += endSec - startSec;
  }
  return total > 0 ? right / total : 0;
}
