import { readFileSync } from "node:fs";
import path from "node:path";
import { z } from "zod";

/** What an item is scored on. */
const TASKS = ["tuning", "key", "homes", "beats", "chords", "notes", "steel"] as const;

const key = z.object({ tonic: z.string(), mode: z.string() });
const itemSchema = z.object({
  id: z.string(),
  group: z.string(),
  audio: z.string(),
  durationSec: z.number(),
  tasks: z.array(z.enum(TASKS)),
  tuningCents: z.number().nullish(),
  key: key.nullish(),
  homes: z.array(key.extend({ start: z.number(), end: z.number() })).nullish(),
  tempoBpm: z.number().nullish(),
  beats: z.string().nullish(),
  chords: z.string().nullish(),
  notes: z.string().nullish(),
  steel: z.string().nullish(),
  notePassage: z.tuple([z.number(), z.number()]).nullish(),
});
const manifestSchema = z.object({ items: z.array(itemSchema).min(1) });

/** One annotated recording, as its manifest describes it; paths are relative to the manifest's folder. */
export type Item = z.infer<typeof itemSchema>;
export type Task = (typeof TASKS)[number];

export interface ItemSet {
  /** `A`, `B` or `own`. */
  name: string;
  folder: string;
  items: Item[];
}

/** @throws where the manifest cannot be read or is not one */
export function readItemSet(name: string, manifest: string): ItemSet {
  const { items } = manifestSchema.parse(JSON.parse(readFileSync(manifest, "utf8")));
  return { name, folder: path.dirname(manifest), items };
}
