import type { Copedent } from "@/lib/instrument/Copedent";
import { stringOffset } from "@/lib/instrument/effectivePitch";
import { barFretAt, fretOn } from "@/lib/instrument/frets";
import { allStages, engagedStages, type Stage } from "@/lib/instrument/stages";
import type { Seconds } from "@/lib/units/quantities";
import { type BeatGrid, beatToInBar, beatToSeconds, gridBars, secondsToBeat } from "./barGrid";
import type { PartEvent } from "./PartEvent";
import { soundedEnd } from "./soundedEnd";
import { writeCell, writeHeld } from "./tabCell";

/** A string that ends this little after another begins does not ring into it. */
const OVERLAP_SEC: Seconds = 0.05;
const MOST_SHOWN = 8;
/** Frets nearer than this are one: the line of a slanted bar seldom meets a string at just a whole number. */
const SAME_FRET = 0.05;

/**
 * What a part writes that one bar and one set of pedals cannot do: a string still rings at one place while an
 * event on other strings puts the bar elsewhere, or pulls that string. Pedals and levers act on the whole neck, so
 * the ringing string would move as well. One line each, at most eight and a count of the rest.
 */
export function warnOfRinging(
  copedent: Copedent,
  grid: BeatGrid | null,
  part: readonly PartEvent[],
): string[] {
  const lines: string[] = [];
  const sounding = new Map<number, PartEvent>();
  for (const event of [...part].sort((a, b) => a.startSec - b.startSec)) {
    for (const [string, ringing] of sounding) {
      if (event.strings.includes(string) || soundedEnd(ringing) - event.startSec < OVERLAP_SEC) continue;
      const why = whyItMoves(copedent, string, ringing, event);
      if (why === null) continue;
      const { held } = writeCell(ringing, string, null, copedent);
      lines.push(
        `Check ${placeInWords(grid, event.startSec)}: string ${string} still rings at ${held}, ${why}.`,
      );
    }
    for (const string of event.strings) sounding.set(string, event);
  }
  if (lines.length <= MOST_SHOWN) return lines;
  return [...lines.slice(0, MOST_SHOWN), `Check: ${lines.length - MOST_SHOWN} more of this kind.`];
}

function whyItMoves(copedent: Copedent, string: number, ringing: PartEvent, event: PartEvent): string | null {
  // An open string rings beside the bar, which need not touch it; and a finger holds its string alone.
  const at = fretOn(ringing, string);
  const isUnderBar = copedent.stoppedBy === "bar" && at > 0 && event.fret > 0;
  if (isUnderBar && Math.abs(barFretAt(event, string) - at) > SAME_FRET)
    return `but the bar goes to ${writeHeld(event, event.strings[0] ?? string, copedent)}`;
  const held = stringOffset(copedent, string, knownStages(copedent, ringing));
  return held === stringOffset(copedent, string, knownStages(copedent, event))
    ? null
    : "and the pedals or levers would move it";
}

function knownStages(copedent: Copedent, event: PartEvent): Stage[] {
  const known = allStages(copedent).map((stage) => stage.id);
  return engagedStages(
    copedent,
    event.changes.filter((id) => known.includes(id)),
  );
}

function placeInWords(grid: BeatGrid | null, timeSec: Seconds): string {
  if (grid === null || grid.beatsSec.length === 0) return `at ${timeSec.toFixed(1)} s`;
  const beat = Math.round(secondsToBeat(grid, timeSec) * 4) / 4;
  const whole = Math.floor(beat);
  const sec = beatToSeconds(grid, beat);
  return `bar ${gridBars(grid, sec, sec)[0]?.number}, beat ${beatToInBar(grid, whole) + beat - whole}`;
}
