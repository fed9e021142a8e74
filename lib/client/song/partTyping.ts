import type { PartEventFields } from "@/lib/document/commands/part";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Change, Copedent } from "@/lib/instrument/Copedent";
import { fretOn } from "@/lib/instrument/frets";
import { allStages } from "@/lib/instrument/stages";
import type { Articulation } from "@/lib/notation/PartEvent";
import { writeChanges } from "@/lib/notation/tabCell";
import type { Seconds } from "@/lib/units/quantities";
import { countBefore } from "../axis/withinStretch";
import { SAME_MOMENT_SEC } from "./sameMoment";

/** Where one is writing in the part. */
export interface Caret {
  /** String number as the player counts it. */
  string: number;
  timeSec: Seconds;
}

/** The events that begin at a time, on whatever strings. */
export function eventsBeginningAt(part: readonly ShownPart[], timeSec: Seconds): ShownPart[] {
  return part.filter((event) => Math.abs(event.startSec - timeSec) < SAME_MOMENT_SEC);
}

/** The event that begins at the caret's time, on its string or, where none is there, on any. */
export function eventBeginningAt(part: readonly ShownPart[], caret: Caret): ShownPart | null {
  const there = eventsBeginningAt(part, caret.timeSec);
  return there.find((event) => event.strings.includes(caret.string)) ?? there[0] ?? null;
}

/** The event before `startSec` that last sounded one of the strings. @param part in order of time */
export function eventBefore(
  part: readonly ShownPart[],
  startSec: Seconds,
  strings: readonly number[],
): ShownPart | null {
  for (let at = countBefore(part, startSec - SAME_MOMENT_SEC) - 1; at >= 0; at--)
    if (part[at]!.strings.some((string) => strings.includes(string))) return part[at]!;
  return null;
}

/** When the event after a time begins; `fallbackSec` where none does sooner. */
export function endBeforeNext(part: readonly ShownPart[], startSec: Seconds, fallbackSec: Seconds): Seconds {
  const next = part.find((event) => event.startSec > startSec + SAME_MOMENT_SEC);
  return next ? Math.min(next.startSec, fallbackSec) : fallbackSec;
}

/** The stage in which a change is engaged; none where it is let off. */
export function engagedStage(change: Change, engaged: readonly string[]): string | undefined {
  return stagesOf(change).find((stage) => engaged.includes(stage));
}

/** Letters of a change under one key: off, then each stage in turn, then off again. */
export function toggleChange(
  copedent: Copedent,
  engaged: readonly string[],
  letter: string,
): string[] | null {
  const change = copedent.changes.find((each) => each.id.toLowerCase() === letter.toLowerCase());
  if (!change) return null;
  const stages = stagesOf(change);
  const now = stages.findIndex((stage) => engaged.includes(stage));
  const rest = engaged.filter((id) => !stages.includes(id));
  const next = stages[now + 1];
  const order = allStages(copedent).map((stage) => stage.id);
  return (next ? [...rest, next] : rest).sort((a, b) => order.indexOf(a) - order.indexOf(b));
}

/** Ids of a change's stages, in order. */
export function stagesOf({ id, stages }: Change): string[] {
  return stages.map((_, index) => id.repeat(index + 1));
}

/** Where an event is held, and by which pedals. */
export type HeldEvent = Pick<PartEventFields, "strings" | "fret" | "frets" | "changes">;

/** Whether the bar or a finger goes elsewhere: on the strings that both have; where they share none, as a whole. */
export function movesBetween(before: HeldEvent, now: HeldEvent): boolean {
  const shared = now.strings.filter((string) => before.strings.includes(string));
  if (shared.length === 0) return before.fret !== now.fret;
  return shared.some((string) => fretOn(before, string) !== fretOn(now, string));
}

/** How an event comes out of the one before when it is not picked anew: by what differs between the two. */
export function soundingArticulation(before: HeldEvent | null, now: HeldEvent): Articulation {
  if (!before) return "slide";
  const moved = movesBetween(before, now);
  const pressed = now.changes.some((id) => !before.changes.includes(id));
  const released = before.changes.some((id) => !now.changes.includes(id));
  if (moved) return pressed || released ? "slidePress" : "slide";
  return pressed || !released ? "press" : "release";
}

/** A fret typed digit by digit: `1` then `0` is 10, where the neck goes that far; otherwise begun anew. */
export function typeDigit(typedSoFar: string, digit: string, fretCount: number): string {
  const longer = typedSoFar + digit;
  return typedSoFar !== "" && typedSoFar !== "0" && Number(longer) <= fretCount ? longer : digit;
}

/** Changes that pull a string, in the copedent's order: what is written behind the fret on that string. */
export function lettersOn(copedent: Copedent, changes: readonly string[], string: number): string {
  const pulling = allStages(copedent).filter(
    (stage) => changes.includes(stage.id) && (stage.pulls[string] ?? 0) !== 0,
  );
  return writeChanges(
    pulling.map((stage) => stage.id),
    copedent,
  );
}
