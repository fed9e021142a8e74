interface Stretch {
  startSec: number;
  endSec: number;
}

/** A piece of time in which neither the reference nor the estimate changes. */
export interface Piece<R, E> {
  startSec: number;
  endSec: number;
  reference: R;
  estimate: E | null;
}

/**
 * The pieces that two lists of stretches cut each other into, as far as the reference reaches.
 * @param reference in order, without overlap
 * @param estimate in order, without overlap
 */
export function piecesOf<R extends Stretch, E extends Stretch>(
  reference: readonly R[],
  estimate: readonly E[],
): Piece<R, E>[] {
  const edges = [...new Set([...reference, ...estimate].flatMap((s) => [s.startSec, s.endSec]))];
  edges.sort((a, b) => a - b);
  const at = <S extends Stretch>(list: readonly S[], sec: number) =>
    list.find(({ startSec, endSec }) => startSec <= sec && sec < endSec) ?? null;
  return edges.slice(1).flatMap((endSec, i) => {
    const startSec = edges[i]!;
    const middle = (startSec + endSec) / 2;
    const wanted = at(reference, middle);
    return wanted ? [{ startSec, endSec, reference: wanted, estimate: at(estimate, middle) }] : [];
  });
}
