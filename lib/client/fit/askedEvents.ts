import type { ShownNote, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { soundedEnd } from "@/lib/notation/soundedEnd";
import { soundingPitches } from "@/lib/notation/soundingPitches";
import type { Seconds } from "@/lib/units/quantities";
import { eventsBeginningAt } from "../song/partTyping";
import type { AskedFit } from "./fitMessages";

/** An event of the part as it is held against the record. */
export interface AskedEvent {
  eventId: string;
  asked: AskedFit;
}

/** A passage is looked at for so long at most: a note that rings on says no more. */
const LONGEST_SEC: Seconds = 2;
/** What glides in is looked at from so long after its start on, where it lasts long enough. */
const GLIDE_SEC: Seconds = 0.08;
const SHORTEST_SEC: Seconds = 0.15;

/**
 * An event of the part as a guess: with what begins at the same time, such as strings held by other fingers, and, where it
 * glides in, with what rings on; null where the strings give no pitch.
 * @param part all events
 */
export function askedEvent(
  event: ShownPart,
  part: readonly ShownPart[],
  copedent: Copedent,
): AskedEvent | null {
  const begun = eventsBeginningAt(part, event.startSec);
  const ringing = event.articulation === "pick" ? [] : ringingOver(event, begun, part);
  const sounding = [...begun, ...ringing];
  const midis = sounding
    .flatMap((each) => soundingPitches(copedent, each, part))
    .filter((midi) => midi !== null);
  if (midis.length === 0) return null;
  const glides = event.articulation !== "pick" && event.endSec - event.startSec > GLIDE_SEC + SHORTEST_SEC;
  const startSec = event.startSec + (glides ? GLIDE_SEC : 0);
  const lastSec = Math.min(...sounding.map(soundedEnd));
  const endSec = Math.min(Math.max(lastSec, startSec + SHORTEST_SEC), startSec + LONGEST_SEC);
  const notes = [...new Set(midis)].map((midi) => ({ midi }));
  return { eventId: event.id, asked: { passage: { startSec, endSec }, guess: { kind: "notes", notes } } };
}

/** The events of a part as they are checked, each stroke once: by the first of those that begin together. */
export function askedStrokes(
  events: readonly ShownPart[],
  part: readonly ShownPart[],
  copedent: Copedent,
): AskedEvent[] {
  return events.flatMap((event) => {
    const isFirst = eventsBeginningAt(events, event.startSec)[0] === event;
    return (isFirst && askedEvent(event, part, copedent)) || [];
  });
}

/** What was begun before an event and sounds on beside it. */
function ringingOver(event: ShownPart, begun: readonly ShownPart[], part: readonly ShownPart[]): ShownPart[] {
  const taken = begun.flatMap(({ strings }) => strings);
  return part.filter(
    (each) =>
      !begun.includes(each) &&
      each.startSec < event.startSec &&
      each.endSec > event.startSec + GLIDE_SEC + SHORTEST_SEC &&
      !each.strings.some((string) => taken.includes(string)),
  );
}

/** Heard notes that are picked together, as a guess. */
export function askedNotes(
  notes: readonly Pick<ShownNote, "startSec" | "endSec" | "midi" | "glides">[],
): AskedFit {
  const startSec = Math.min(...notes.map((note) => note.startSec));
  const endSec = Math.min(
    startSec + LONGEST_SEC,
    Math.max(startSec + SHORTEST_SEC, Math.min(...notes.map((note) => note.endSec))),
  );
  const byPitch = new Map(notes.map((note) => [Math.round(note.midi), note]));
  return {
    passage: { startSec, endSec },
    guess: {
      kind: "notes",
      notes: [...byPitch].map(([midi, { glides }]) => ({
        midi,
        glides: glides.map(({ toMidi, atSec, durationSec }) => ({
          toMidi: Math.round(toMidi),
          atSec,
          durationSec,
        })),
      })),
    },
  };
}

/** Tells whether an event still says what was asked of it. */
export function signOf({ asked }: AskedEvent): string {
  return JSON.stringify(asked);
}
