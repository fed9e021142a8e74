import type { Copedent } from "@/lib/instrument/Copedent";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { ChartFault } from "@/lib/instrument/chart/ChartFault";
import { readChart } from "@/lib/instrument/chart/readChart";
import type { EpochMs } from "@/lib/units/quantities";
import { isEpochMs, isObject, isPartName } from "./guards";

/** Where the copedent of a part was taken from; for showing only, since what holds is the copy beside it (rule D38). */
export type CopedentSource =
  | { kind: "preset"; id: string }
  /** A player's own, which its owner may have changed or removed since. */
  | { kind: "own"; id: string; ownerId: string };

/** On what a part is played: one register, since strings and pedals of two charts make no third. */
export interface CopedentSheet {
  /** Who chose it, and when. */
  by: string;
  atMs: EpochMs;
  from: CopedentSource;
  /** A copy, whole, with the name that it had. */
  chart: Chart;
}

/** How a part is called (rule D53). */
export interface PartName {
  by: string;
  atMs: EpochMs;
  /** Empty where it is called by its place in the order. */
  name: string;
}

/** Whether a part is there, apart from what is written in it (rule D54). */
export interface PartStands {
  by: string;
  atMs: EpochMs;
  isThere: boolean;
}

/** What a part but the first was made as (rule D55). */
export interface BegunPart extends CopedentSheet, PartName {}

/** The name alone; null where it cannot be read. */
export function readPartName(value: unknown): string | null {
  return isObject(value) && isPartName(value.name) ? value.name : null;
}

/** Whether the part is there; false where that cannot be read. */
export function readStands(value: unknown): boolean {
  return isObject(value) && value.isThere === true;
}

/** The sheet with its chart read; null where any of it cannot be read. */
export function readCopedentSheet(
  value: unknown,
): (Omit<CopedentSheet, "chart"> & { copedent: Copedent }) | null {
  if (!isObject(value) || typeof value.by !== "string" || !isEpochMs(value.atMs)) return null;
  const { by, atMs } = value;
  const from = readSource(value.from);
  const copedent = from && readChartOrNull(value.chart, from.id);
  return from && copedent && { by, atMs, from, copedent };
}

/** A copedent under that id; null where the chart cannot be read. */
export function readChartOrNull(chart: unknown, id: string): Copedent | null {
  try {
    return readChart(chart, id);
  } catch (fault) {
    if (fault instanceof ChartFault) return null;
    throw fault;
  }
}

export function readSource(value: unknown): CopedentSource | null {
  if (!isObject(value) || typeof value.id !== "string" || value.id === "") return null;
  const { kind, id, ownerId } = value;
  if (kind === "preset") return { kind, id };
  return kind === "own" && typeof ownerId === "string" ? { kind, id, ownerId } : null;
}
