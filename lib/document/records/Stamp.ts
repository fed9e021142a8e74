import type { EpochMs } from "@/lib/units/quantities";

/** The id that stands for the hearing job wherever a person's id may stand. */
export const MACHINE = "machine";

/** Pencil is proposed, ink is settled by a person. */
export type Mark = "pencil" | "ink";

/** Who and when, kept on every record. */
export interface Stamp {
  madeBy: string;
  madeAtMs: EpochMs;
  editedBy: string;
  editedAtMs: EpochMs;
}
