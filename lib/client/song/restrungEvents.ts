import type { EventPlace } from "@/lib/document/commands/head";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { fretsOf, settleFrets } from "@/lib/instrument/frets";
import { laidArticulation } from "./laidArticulation";
import { eventBefore } from "./partTyping";

/** Events laid on other strings. */
export interface Restrung {
  /** Where each lies, by id, and how it then begins. */
  edits: Map<string, EventPlace & Pick<ShownPart, "articulation">>;
  /** Whether they sound the same notes; else they lie at the same frets and sound those of their new strings. */
  keepsNotes: boolean;
  /** By how many rows they went: fewer than asked for where the neck ends. */
  rows: number;
}

/**
 * Events taken so many strings up or down, with their pedals. Where each of them can sound its own notes there, it does, at
 * another fret: under a straight bar at one for all of its strings. Where one of them cannot, all keep their frets, as a
 * player does who picks other strings behind the same bar.
 * @param rows to later strings; negative to earlier
 * @param part all of it, in order of time
 * @returns null where nothing moves
 */
export function restrungEvents(
  events: readonly ShownPart[],
  rows: number,
  copedent: Copedent,
  part: readonly ShownPart[],
): Restrung | null {
  const numbers = copedent.strings.map(({ number }) => number);
  const used = events.flatMap(({ strings }) => strings.map((string) => numbers.indexOf(string)));
  if (used.length === 0 || used.includes(-1)) return null;
  const kept = Math.min(Math.max(rows, -Math.min(...used)), numbers.length - 1 - Math.max(...used));
  if (kept === 0) return null;
  const moved = events.map((event) => ({
    ...event,
    strings: event.strings.map((string) => numbers[numbers.indexOf(string) + kept]!),
  }));
  const atOwnNotes = moved.map((event, at) => withNotesOf(events[at]!, event, copedent));
  const keepsNotes = atOwnNotes.every((event) => event !== null);
  const laid = moved.map((event, at) => (keepsNotes && atOwnNotes[at]) || event);
  const byId = new Map(laid.map((event) => [event.id, event]));
  const now = part.map((event) => byId.get(event.id) ?? event);
  const edits: Restrung["edits"] = new Map();
  for (const event of laid) {
    const { id, startSec, strings, fret, frets = null, changes } = event;
    const articulation = laidArticulation(event, eventBefore(now, startSec, strings));
    edits.set(id, { strings, fret, frets, changes, articulation });
  }
  return { edits, keepsNotes, rows: kept };
}

/** The event at the frets where it sounds what another does; null where the neck has none, or a straight bar cannot. */
function withNotesOf(event: ShownPart, on: ShownPart, copedent: Copedent): ShownPart | null {
  const frets = fretsOf(event).map((fret, at) => {
    const wanted = pitchOf(copedent, event.strings[at]!, fret, event.changes);
    const string = on.strings[at]!;
    // On one string each fret gives another note, so that there is one at most.
    const found = Array.from({ length: copedent.fretCount + 1 }, (_, each) => each).find(
      (each) => pitchOf(copedent, string, each, event.changes) === wanted,
    );
    return wanted === null ? null : (found ?? null);
  });
  if (!frets.every((fret) => fret !== null)) return null;
  const isStraight = !event.frets && copedent.stoppedBy !== "fingers";
  if (isStraight && new Set(frets).size > 1) return null;
  return { ...on, ...settleFrets(frets) };
}

function pitchOf(copedent: Copedent, string: number, fret: number, changes: readonly string[]) {
  try {
    return effectiveMidi(copedent, string, fret, changes);
  } catch {
    // A pedal that this guitar lacks.
    return null;
  }
}
