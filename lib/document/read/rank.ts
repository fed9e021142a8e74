import type { RecordBase } from "../records/records";

/**
 * Which of two records is shown where both claim a place (rules D11 to D14), for sorting best first:
 * ink before pencil, then the later start, then the later edit, then the higher id.
 */
export function compareRank(
  a: RecordBase & { startSec?: number },
  b: RecordBase & { startSec?: number },
): number {
  return (
    compareMark(a, b) ||
    (b.startSec ?? 0) - (a.startSec ?? 0) ||
    b.editedAtMs - a.editedAtMs ||
    compareText(b.id, a.id)
  );
}

/** Ink before pencil. */
export function compareMark(a: RecordBase, b: RecordBase): number {
  return Number(b.mark === "ink") - Number(a.mark === "ink");
}

/** By code units, the same in every locale. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
