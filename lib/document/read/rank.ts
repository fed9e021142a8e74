import type { Seconds } from "@/lib/units/quantities";
import type { RecordBase } from "../records/records";

/**
 * Which of two records is shown where both claim an instant (rules D11, D14), for sorting best first:
 * ink before pencil, then the later start, then the later edit, then the higher id.
 */
export function compareRank<R extends RecordBase & { startSec: Seconds }>(a: R, b: R): number {
  return compareMark(a, b) || b.startSec - a.startSec || compareEdit(a, b);
}

/** Which of two records holds where both claim the same place whole (rules D12, D13): compareRank less the start. */
export function compareWhole(a: RecordBase, b: RecordBase): number {
  return compareMark(a, b) || compareEdit(a, b);
}

/** Ink before pencil. */
export function compareMark(a: RecordBase, b: RecordBase): number {
  return Number(b.mark === "ink") - Number(a.mark === "ink");
}

function compareEdit(a: RecordBase, b: RecordBase): number {
  return b.editedAtMs - a.editedAtMs || compareText(b.id, a.id);
}

/** By code units, the same in every locale. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
