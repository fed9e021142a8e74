const FOLDS = 11;

/**
 * Cases in elevenths for cross-validation; the parts of one record stay together.
 * @returns pairs of the cases to fit and those left out
 */
export function foldsByRecord<T extends { id: string }>(
  cases: readonly T[],
): { fitted: T[]; leftOut: T[] }[] {
  const ids = [...new Set(cases.map(({ id }) => id))];
  const foldOf = new Map(ids.map((id, i) => [id, i % FOLDS]));
  return Array.from({ length: FOLDS }, (_, fold) => ({
    fitted: cases.filter(({ id }) => foldOf.get(id) !== fold),
    leftOut: cases.filter(({ id }) => foldOf.get(id) === fold),
  })).filter(({ leftOut }) => leftOut.length > 0);
}
