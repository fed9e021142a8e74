/** Whether two lists hold the same, strings, ids of stages or pitch classes, each once and in whatever order. */
export function sameMembers<T extends number | string>(one: readonly T[], other: readonly T[]): boolean {
  return one.length === other.length && one.every((each) => other.includes(each));
}
