import type { Chart } from "@/lib/instrument/chart/Chart";
import { readChart } from "@/lib/instrument/chart/readChart";
import type { Prisma } from "../db/generated/client";

/** A chart as the database takes it, with its name apart, by which lists are put in order. */
export function chartColumns(chart: Chart): { name: string; chart: Prisma.InputJsonObject } {
  return { name: readChart(chart).name, chart: chart as unknown as Prisma.InputJsonObject };
}
