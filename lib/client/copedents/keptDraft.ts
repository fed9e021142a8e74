import { z } from "zod";
import { isSlotCode, type SlotCode } from "@/lib/instrument/chart/slotCode";
import type { ChartDraft } from "./ChartDraft";
import { readDraft } from "./readDraft";

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

const kept = z.object({ heldText: z.string(), readText: z.string(), draft: chartDraft });

/** What was typed, and what it was typed beside. */
export interface KeptDraft {
  /** The chart that the server held, as JSON. */
  heldText: string;
  /** The chart as it was last read without a fault, which the server may have been given since. */
  readText: string;
  draft: ChartDraft;
}

export function keptText(draft: KeptDraft): string {
  return JSON.stringify(draft);
}

/**
 * What was kept in such a text; null where there is none, or where it is no draft as this version knows them (an older
 * one may have written it). Never throws.
 */
export function readKeptDraft(text: string | null): KeptDraft | null {
  if (text === null) return null;
  try {
    const read = kept.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/**
 * What becomes of a kept draft when its chart is opened: `gone` where all of it is in that chart, `on` where it goes on from
 * there, `apart` where the chart was changed elsewhere meanwhile.
 * @param heldText the chart that the server holds now
 */
export function standingOf(kept: KeptDraft, heldText: string): "gone" | "on" | "apart" {
  const { chart } = readDraft(kept.draft);
  if (chart && JSON.stringify(chart) === heldText) return "gone";
  return heldText === kept.heldText || heldText === kept.readText ? "on" : "apart";
}
