/** Thousandths, in which commands print: a millisecond, a tenth of a cent of a MIDI number, a thousandth of certainty. */
export function rounded(value: number): number {
  return Math.round(value * 1_000) / 1_000;
}
