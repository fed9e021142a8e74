/**
 * Of locks that together leave no place those that are to blame: one that leaves none by itself, else some of which
 * none can be let off.
 * @param leavesNone whether some of the locks leave no place; without any lock there is one
 */
export function fewestLocks<L extends object>(
  locks: readonly L[],
  leavesNone: (some: readonly L[]) => boolean,
): readonly L[] {
  const alone = locks.find((lock) => leavesNone([lock]));
  if (alone) return [alone];
  let few = locks;
  for (const lock of locks) {
    const fewer = few.filter((other) => other !== lock);
    if (leavesNone(fewer)) few = fewer;
  }
  return few;
}
