import { z } from "zod";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { ChartFault } from "@/lib/instrument/chart/ChartFault";
import { readChart } from "@/lib/instrument/chart/readChart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { findCopedent } from "@/lib/instrument/copedentCatalog";

/** A chart as `readChart` takes it; what cannot be read is told in that room's words. */
const chartSchema = z.unknown().transform((value, ctx): Chart => {
  try {
    return writeChart(readChart(value));
  } catch (fault) {
    if (!(fault instanceof ChartFault)) throw fault;
    ctx.addIssue({ code: "custom", message: fault.message });
    return z.NEVER;
  }
});

export const newCopedentSchema = z.object({ chart: chartSchema });
export type NewCopedent = z.infer<typeof newCopedentSchema>;

export const copedentEditSchema = z.object({
  /** As it was read: where the copedent has been changed since, nothing is written. */
  revision: z.number().int().min(1),
  chart: chartSchema,
});
export type CopedentEdit = z.infer<typeof copedentEditSchema>;

/** A player's usual guitar: a preset, one of the player's own, or none said. */
export const usualCopedentSchema = z.union([
  z.object({ presetId: z.string().refine((id) => findCopedent(id) !== null, "there is no such preset") }),
  z.object({ copedentId: z.string().min(1).max(64) }),
  z.null(),
]);
export type UsualCopedent = z.infer<typeof usualCopedentSchema>;

export interface SharedIn {
  bookId: string;
  bookTitle: string;
}

/** A copedent that a player made, as its owner and the members of the books it is shared in see it. */
export interface CopedentRow {
  id: string;
  /** With the name that its owner gave it. */
  chart: Chart;
  revision: number;
  ownerId: string;
  ownerName: string;
  isOwn: boolean;
  /** Of the books of whoever asks, those it is shared in. */
  sharedIn: SharedIn[];
  changedAt: string;
}

/** All that a player can play a part on, presets aside. */
export interface CopedentShelf {
  /** The latest changed first. */
  own: CopedentRow[];
  /** Of other players, in books that one is a member of; by name. */
  shared: CopedentRow[];
  usual: UsualCopedent;
}

/** What the page of one copedent starts from. */
export interface CopedentPage extends CopedentRow {
  isUsual: boolean;
  /** Books in which its owner may share it; empty for others. */
  books: SharedIn[];
}
