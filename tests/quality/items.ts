import { readFileSync } from "node:fs";
import path from "node:path";
import { z } from "zod";
import type { ReferenceNote } from "@/lib/scoring/noteScore";
import { readBeats, readChords, readGlides, readNotes } from "./annotations";
import type { ReferenceBeat, Subject, SubjectSet, Truth } from "./Subject";

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
  meter: z.string().nullish(),
  swing: z.number().nullish(),
});
const manifestSchema = z.object({ items: z.array(itemSchema).min(1) });
type Item = z.infer<typeof itemSchema>;

/** Fewer marked notes of the bass are no line. */
const FEWEST_BASS_NOTES = 8;
/** Share of the beat at which the second eighth comes: nearer to two thirds than to a half is a beat in three. */
const SWUNG_FROM = 7 / 12;

/** @throws where the manifest cannot be read or is not one */
export function readItemSet(name: string, manifest: string): SubjectSet {
  const { items } = manifestSchema.parse(JSON.parse(readFileSync(manifest, "utf8")));
  const folder = path.dirname(manifest);
  const subjects = items.map(
    (item): Subject => ({
      id: item.id,
      group: item.group,
      durationSec: item.durationSec,
      source: { kind: "file", path: path.join(folder, item.audio) },
      truth: truthOf(item, folder),
    }),
  );
  return { name, subjects };
}

function truthOf(item: Item, folder: string): Truth {
  const has = (task: (typeof TASKS)[number]) => item.tasks.includes(task);
  const truth: Truth = {};
  if (has("tuning") && typeof item.tuningCents === "number") truth.tuningCents = item.tuningCents;
  if (has("key") && item.key) truth.key = item.key;
  if (has("homes") && item.homes) {
    truth.homes = item.homes.map(({ start, end, ...home }) => ({ startSec: start, endSec: end, ...home }));
  }
  if (has("beats") && item.beats) {
    truth.beats = readBeats(folder, item.beats);
    truth.beatsPerBar = commonestBarLength(truth.beats);
    if (item.tempoBpm) truth.tempoBpm = item.tempoBpm;
    const division = divisionOf(item);
    if (division) truth.division = division;
  }
  if (has("chords") && item.chords) truth.chords = readChords(folder, item.chords);
  if (item.notes) addNotes(truth, item, readNotes(folder, item.notes), folder);
  return truth;
}

function addNotes(truth: Truth, item: Item, notes: ReferenceNote[], folder: string): void {
  const has = (task: (typeof TASKS)[number]) => item.tasks.includes(task);
  const bass = notes.filter(({ role }) => role === "bass");
  if (bass.length >= FEWEST_BASS_NOTES) truth.bass = bass;
  if (!item.notePassage || !(has("notes") || has("steel"))) return;
  const [startSec, endSec] = item.notePassage;
  truth.passage = {
    span: { startSec, endSec },
    notes,
    scoresAll: has("notes"),
    glides: has("steel") && item.steel ? readGlides(folder, item.steel) : null,
  };
}

/** Only some manifests tell how the beat divides: by the meter, else by the swing. */
function divisionOf({ meter, swing }: Item): 2 | 3 | null {
  if (meter === "6/8" || meter === "12/8") return 3;
  return typeof swing === "number" ? (swing >= SWUNG_FROM ? 3 : 2) : null;
}

/** Beats from one marked downbeat to the next, most often. */
export function commonestBarLength(beats: readonly ReferenceBeat[]): number {
  const downbeats = beats.flatMap(({ inBar }, i) => (inBar === 1 ? [i] : []));
  const counts = new Map<number, number>();
  downbeats.slice(1).forEach((at, i) => {
    const length = at - downbeats[i]!;
    counts.set(length, (counts.get(length) ?? 0) + 1);
  });
  const [commonest] = [...counts].sort((a, b) => b[1] - a[1]);
  return commonest?.[0] ?? Math.max(...beats.map(({ inBar }) => inBar));
}
