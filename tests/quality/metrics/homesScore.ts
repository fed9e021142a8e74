import { pitchClassOf } from "./harteEncoding";
import { isMinor, type NamedKey } from "./keyScore";

export interface HomeSpan extends NamedKey {
  startSec: number;
  endSec: number;
}

/** Share of the time over which the right tonic and mode are given. */
export function homesScore(reference: readonly HomeSpan[], estimate: readonly HomeSpan[]): number {
  const edges = [
    ...new Set([...reference, ...estimate].flatMap(({ startSec, endSec }) => [startSec, endSec])),
  ];
  edges.sort((a, b) => a - b);
  const at = (homes: readonly HomeSpan[], sec: number) =>
    homes.find((h) => h.startSec <= sec && sec < h.endSec);
  let right = 0;
  let total = 0;
  for (let i = 0; i + 1 < edges.length; i++) {
    const middle = (edges[i]! + edges[i + 1]!) / 2;
    const wanted = at(reference, middle);
    if (!wanted) continue;
    const seconds = edges[i + 1]! - edges[i]!;
    total += seconds;
    const given = at(estimate, middle);
    if (!given || isMinor(wanted.mode) !== isMinor(given.mode)) continue;
    if (pitchClassOf(wanted.tonic) === pitchClassOf(given.tonic)) right += seconds;
  }
  return total > 0 ? right / total : 0;
}
