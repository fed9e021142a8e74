import { pitchClassOf } from "./harteEncoding";

export interface NamedKey {
  tonic: string;
  /** `major`, `minor` or words that begin so. */
  mode: string;
}

export function isMinor(mode: string): boolean {
  return mode.startsWith("min");
}

/** The MIREX score of one key: 1 the same, 0.5 a fifth above, 0.3 relative, 0.2 parallel, else 0 (as mir_eval.key). */
export function weightedKeyScore(reference: NamedKey, estimate: NamedKey): number {
  const up = (pitchClassOf(estimate.tonic) - pitchClassOf(reference.tonic) + 12) % 12;
  const referenceMinor = isMinor(reference.mode);
  if (referenceMinor === isMinor(estimate.mode)) return up === 0 ? 1 : up === 7 ? 0.5 : 0;
  if (up === (referenceMinor ? 3 : 9)) return 0.3;
  return up === 0 ? 0.2 : 0;
}
