import { readFileSync } from "node:fs";
import path from "node:path";
import { z } from "zod";
import type { ReferenceGlide } from "@/lib/scoring/glideScore";
import type { ReferenceNote } from "@/lib/scoring/noteScore";
import type { ChordSpan } from "./metrics/chordSpans";

function rows(folder: string, file: string): string[][] {
  return readFileSync(path.join(folder, file), "utf8")
    .split("\n")
    .filter((line) => line.trim() !== "")
    .map((line) => line.replace(/\r$/, "").split("\t"));
}

/** Start, end, Harte label. */
export function readChords(folder: string, file: string): ChordSpan[] {
  return rows(folder, file).map(([start, end, label]) => ({
    startSec: Number(start),
    endSec: Number(end),
    label: label!,
  }));
}

/** Time, position in the bar (1 = downbeat). */
export function readBeats(folder: string, file: string): { timeSec: number; inBar: number }[] {
  return rows(folder, file).map(([time, inBar]) => ({ timeSec: Number(time), inBar: Number(inBar) }));
}

/** Start, end, MIDI pitch, kind, role, under a line of headings. */
export function readNotes(folder: string, file: string): ReferenceNote[] {
  return rows(folder, file)
    .slice(1)
    .map(([start, end, midi, kind, role]) => ({
      startSec: Number(start),
      endSec: Number(end),
      midi: Number(midi),
      kind: kind === "slide" ? "slide" : "attack",
      role: role ?? "",
    }));
}

const steelSchema = z.object({
  events: z.array(
    z.object({
      time: z.number(),
      strings: z.array(z.number()),
      moved: z
        .array(z.object({ fromMidi: z.number(), toMidi: z.number(), mechanism: z.enum(["pedal", "bar"]) }))
        .optional(),
    }),
  ),
});

/** Every string that a press, a release or the bar moves. */
export function readGlides(folder: string, file: string): ReferenceGlide[] {
  const { events } = steelSchema.parse(JSON.parse(readFileSync(path.join(folder, file), "utf8")));
  return events.flatMap(({ time, strings, moved = [] }) => {
    const intervals = new Set(moved.map(({ fromMidi, toMidi }) => toMidi - fromMidi));
    const allAlike = intervals.size === 1 && moved.length === strings.length;
    return moved.map(({ toMidi, mechanism }) => ({
      atSec: time,
      toMidi,
      kind: mechanism,
      kindIsClear: strings.length > 1 && allAlike === (mechanism === "bar"),
    }));
  });
}
