import { z } from "zod";
import { isSlotCode, type SlotCode } from "@/lib/instrument/chart/slotCode";
import type { ChartDraft } from "./ChartDraft";

const typedByString = z.record(z.string(), z.string());

const chartDraft = z.object({
  name: z.string(),
  source: z.string(),
  stoppedBy: z.enum(["bar", "fingers"]),
  frets: z.string(),
  strings: z.array(z.object({ key: z.string(), pitch: z.string(), beginsAtFret: z.string() })),
  changes: z.array(
    z.object({
      key: z.string(),
      id: z.string(),
      label: z.string(),
      slot: z.custom<SlotCode>(isSlotCode),
      stages: z.array(typedByString),
    }),
  ),
  splits: z.array(z.string()),
  combinations: z.array(
    z.object({
      string: z.string(),
      stages: z.array(z.object({ change: z.string(), depth: z.int().min(1) })),
      semitones: z.number(),
    }),
  ),
  footRest: z.array(z.string()),
  grips: z.string(),
}) satisfies z.ZodType<ChartDraft>;

const kept = z.object({ chartText: z.string(), draft: chartDraft });

/** A draft as text, beside the chart that the server holds. */
export function keptText(chartText: string, draft: ChartDraft): string {
  return JSON.stringify({ chartText, draft });
}

/**
 * The draft kept in such a text; null where there is none, where it was kept beside another chart, or where it is no draft
 * as this version knows them (an older one may have written it). Never throws.
 */
export function readKeptDraft(text: string | null, chartText: string): ChartDraft | null {
  if (text === null) return null;
  try {
    const read = kept.safeParse(JSON.parse(text));
    return read.success && read.data.chartText === chartText ? read.data.draft : null;
  } catch {
    return null;
  }
}
