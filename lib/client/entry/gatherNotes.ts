import type { Midi } from "@/lib/units/quantities";
import type { KeyMessage } from "./midiMessage";

/**
 * Keys struck within this time belong to one chord though a finger left early; keys that overlap for no longer than
 * this after a later stroke were played in a row, bound (common practice, no source).
 */
const CHORD_WINDOW_MS = 60;

/** A key that was struck. */
interface Key {
  /** Of its keyboard and channel, since two may hold the same note. */
  id: string;
  midi: Midi;
  downMs: number;
}

/** Keys that are down, and the notes that they or the last of them make together. */
export interface Gathered {
  held: readonly Key[];
  /** Keys of the set, let go or not, until the next is struck. */
  set: readonly Key[];
}

export const NOTHING_GATHERED: Gathered = { held: [], set: [] };

/**
 * Gathers what is held together into one set. A key struck while others are down joins them, however late; what was
 * let go stays in the set until another key is struck, so that hands are free to write it. Bound notes are no chord:
 * a key let go just after a later stroke leaves. The pedals of the keyboard are not minded.
 * @param keyboard name of the input, so that two keyboards do not let go each other's keys
 * @param atMs of the message, ascending, on any clock
 */
export function gather(now: Gathered, keyboard: string, message: KeyMessage, atMs: number): Gathered {
  const channelOf = (channel: number) => `${keyboard}/${channel}/`;
  switch (message.kind) {
    case "down": {
      const id = channelOf(message.channel) + message.midi;
      const key = { id, midi: message.midi, downMs: atMs };
      const others = now.held.filter((each) => each.id !== id);
      const justStruck = now.set.filter(
        (each) => each.id !== id && atMs - each.downMs < CHORD_WINDOW_MS && !others.includes(each),
      );
      return { held: [...others, key], set: [...justStruck, ...others, key] };
    }
    case "up":
      return letGo(now, (id) => id === channelOf(message.channel) + message.midi, atMs);
    case "allUp":
      return letGo(
        now,
        (id) => id.startsWith(message.channel === null ? `${keyboard}/` : channelOf(message.channel)),
        atMs,
      );
  }
}

/** The pitches of a set, ascending, each once. */
export function notesOf({ set }: Gathered): Midi[] {
  return [...new Set(set.map(({ midi }) => midi))].sort((a, b) => a - b);
}

function letGo(now: Gathered, isLetGo: (id: string) => boolean, atMs: number): Gathered {
  const held = now.held.filter(({ id }) => !isLetGo(id));
  const lastMs = Math.max(...now.set.map(({ downMs }) => downMs));
  const wasBound = ({ id, downMs }: Key) =>
    isLetGo(id) && lastMs - downMs >= CHORD_WINDOW_MS && atMs - lastMs < CHORD_WINDOW_MS;
  return { held, set: now.set.filter((key) => !wasBound(key)) };
}
