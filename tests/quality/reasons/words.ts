/** `3 notes`, `1 note`. */
export function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? "" : "s"}`;
}

/** `12.3 s`. */
export function seconds(sec: number): string {
  return `${sec.toFixed(1)} s`;
}

/** The largest of several kinds of fault, as `7.3 s sevenths heard as major; 1.2 s relative`; at most two,
 * and none that would be told as nothing. */
export function largest(kinds: ReadonlyMap<string, number>, amount: (value: number) => string): string {
  return [...kinds]
    .filter(([, value]) => value >= 0.05)
    .sort((a, b) => b[1] - a[1])
    .slice(0, 2)
    .map(([kind, value]) => `${amount(value)} ${kind}`)
    .join("; ");
}

export function addTo(kinds: Map<string, number>, kind: string, value: number): void {
  kinds.set(kind, (kinds.get(kind) ?? 0) + value);
}
