import { z } from "zod";
import { LABEL_KINDS, type Label, type LabelKind, type SongLabels } from "@/lib/document/labels/Label";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Cents, Seconds } from "@/lib/units/quantities";

/**
 * The file of labels: what the machine heard in the songs of a book and what people made of it, to measure the ear on
 * real records. One JSON object, {@link LabelsFile}. It holds no sound, no titles and no names; a record is named by
 * the SHA-256 of its bytes, people by numbers that mean something within the file only. All times are seconds of the
 * record, all pitches MIDI numbers in tune with it: add `tuningCents` for the pitch by A4 = 440 Hz.
 *
 * A label (lib/document/labels/Label.ts) holds
 *   act       "open" | "hidden" | "inked" | "corrected" | "rubbedOut" | "added", rule D35 of lib/document/SPEC.md
 *   proposed  what the machine said: `values`, `confidence` (0 to 1, null where lost), `aside` (the next best guesses,
 *             how likely a note is the steel's), `ear` (name and number of the method, null where lost); null if added
 *   settled   what stands in ink, the same fields as `values`; null where nothing does
 *   changed   names of the fields in which the two differ
 *   by        numbers of those who inked it, said whose it is, or rubbed it out
 *
 * Notes are the steel's, `whose: "band"` those that people gave to the band. What the machine took for the band's is
 * in the file only where people wrote it as the steel's. `notesGoneOver` says where every note was settled (rule D36):
 * only there does a note that is missing mean that there is none.
 *
 * A reader passes over fields and kinds that it does not know. A change that would mislead it raises the version.
 */
export interface LabelsFile {
  format: typeof LABELS_FORMAT;
  version: typeof LABELS_VERSION;
  songs: LabelledSong[];
}

export interface LabelledSong {
  /** Of the record's bytes as they were added, in hexadecimal. */
  recordSha256: string;
  durationSec: Seconds;
  /** How far the record is shown to stand from A4 = 440 Hz; null where nobody has said. */
  tuningCents: Cents | null;
  /** Of the kinds that were asked for, in order of time. */
  labels: { [K in LabelKind]?: Label<K, number>[] };
  /** Left out where notes were not asked for. */
  notesGoneOver?: HeardStretch[];
}

export const LABELS_FORMAT = "liftbook-labels";
export const LABELS_VERSION = 1;

/** Which kinds of labels are asked for; none without being named. */
export const labelsOrderSchema = z.object({
  kinds: z.array(z.enum(LABEL_KINDS)).min(1, "say which labels the file shall hold"),
});
export type LabelsOrder = z.infer<typeof labelsOrderSchema>;

/** A song's labels with what the file says beside them. */
export interface SongToLabel extends Pick<LabelledSong, "recordSha256" | "durationSec" | "tuningCents"> {
  read: SongLabels;
}

/** Puts the file together: the kinds that were asked for, people numbered in the order in which they come. */
export function labelsFile(songs: readonly SongToLabel[], kinds: readonly LabelKind[]): LabelsFile {
  const numbers = new Map<string, number>();
  const numberOf = (person: string): number => {
    const number = numbers.get(person) ?? numbers.size + 1;
    numbers.set(person, number);
    return number;
  };
  const wanted = LABEL_KINDS.filter((kind) => kinds.includes(kind));
  return {
    format: LABELS_FORMAT,
    version: LABELS_VERSION,
    songs: songs.map(({ recordSha256, durationSec, tuningCents, read }) => ({
      recordSha256,
      durationSec,
      tuningCents,
      labels: Object.fromEntries(
        wanted.map((kind) => [
          kind,
          read.labels[kind].map((label) => ({ ...label, by: label.by.map(numberOf) })),
        ]),
      ),
      ...(wanted.includes("note") && { notesGoneOver: read.notesGoneOver }),
    })),
  };
}

const stretch = z.object({ startSec: z.number(), endSec: z.number() });
const noteValues = stretch.extend({
  midi: z.number(),
  glides: z.array(
    z.object({
      kind: z.enum(["pedal", "bar", "unsure"]),
      toMidi: z.number(),
      atSec: z.number(),
      durationSec: z.number(),
    }),
  ),
  whose: z.enum(["steel", "band"]),
});
const measuredSong = z.object({
  recordSha256: z.string(),
  tuningCents: z.number().nullable(),
  labels: z.object({
    note: z.array(z.object({ act: z.string(), settled: noteValues.nullable() })).optional(),
  }),
  notesGoneOver: z.array(stretch).optional(),
});

/** As much of the file as measuring the notes takes. */
export const measuredLabelsSchema = z.object({
  format: z.literal(LABELS_FORMAT, "it is not a file of labels"),
  version: z.literal(LABELS_VERSION, "it is of another version than this Liftbook reads"),
  songs: z.array(measuredSong),
});
export type MeasuredSong = z.infer<typeof measuredSong>;
