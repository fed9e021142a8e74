import type { Midi, Seconds } from "@/lib/units/quantities";
import type { PassageFit } from "../PassageFit";
import { isInReach } from "../PassageFit";
import type { GlideJudged } from "./TakeJudged";
import type { TakeGlide, TakeNote } from "./TakeStroke";
import { ARRIVAL } from "./takeParameters";

/** What it takes to hear where a note went. */
export interface GlideHearing {
  /** When a moment of the part came in the take, for the stroke in question. */
  toTakeSec(recordSec: Seconds): Seconds;
  over(stretch: { startSec: Seconds; endSec: Seconds }): PassageFit;
  /** What else the part has sounding at a time of the record. */
  othersAt(recordSec: Seconds): readonly Midi[];
  /** When the next stroke of the part begins, seconds of the record. */
  nextStrokeSec: Seconds;
}

/**
 * Whether the notes of a stroke come to where their glides lead: after the glide, and before anything else happens, the
 * pitch must sound, and about as much as the pitch that it came from and those half a step beside it, or more. How fast it went is
 * not judged.
 */
export function judgeGlides(notes: readonly TakeNote[], hearing: GlideHearing): GlideJudged[] {
  const judged: (GlideJudged & { startSec: Seconds })[] = [];
  for (const note of notes) {
    note.glides.forEach((glide, at) => {
      const from = note.glides[at - 1]?.toMidi ?? note.midi;
      const untilSec = Math.min(note.endSec, note.glides[at + 1]?.startSec ?? Number.POSITIVE_INFINITY);
      const found = judgeGlide(glide, from, untilSec, hearing);
      if (found) judged.push({ ...found, startSec: glide.startSec });
    });
  }
  return judged.sort((a, b) => a.startSec - b.startSec).map(({ startSec: _, ...each }) => each);
}

function judgeGlide(
  { eventId, toMidi, endSec }: TakeGlide,
  fromMidi: Midi,
  untilSec: Seconds,
  { toTakeSec, over, othersAt, nextStrokeSec }: GlideHearing,
): GlideJudged | null {
  const startSec = toTakeSec(endSec) + ARRIVAL.afterSec;
  const lastSec = Math.min(toTakeSec(untilSec), toTakeSec(nextStrokeSec), startSec + ARRIVAL.longestSec);
  if (lastSec - startSec < ARRIVAL.shortestSec || !isInReach(toMidi)) return null;
  const fit = over({ startSec, endSec: lastSec });
  const others = othersAt(endSec);
  const rivals = [fromMidi, toMidi - 1, toMidi + 1, fromMidi < toMidi ? toMidi - 2 : toMidi + 2].filter(
    (midi) => midi !== toMidi && isInReach(midi) && !others.includes(midi),
  );
  const there = fit.note(toMidi);
  const best = rivals
    .map((midi) => fit.note(midi))
    .reduce<{ midi: Midi; heard: number; sounds: number } | null>(
      (most, note) => (most && most.heard >= note.heard ? most : note),
      null,
    );
  const hasArrived =
    there.sounds >= ARRIVAL.soundsFrom && there.heard >= (best?.heard ?? -Infinity) - ARRIVAL.weakerBy;
  const stands = !hasArrived && best && best.sounds >= 0 ? best.midi : null;
  return { eventId, toMidi, hasArrived, heardMidi: stands };
}
