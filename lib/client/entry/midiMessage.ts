import type { Midi } from "@/lib/units/quantities";

/** What a message says about keys; messages about anything else say nothing. */
export type KeyMessage =
  | { kind: "down"; channel: number; midi: Midi }
  | { kind: "up"; channel: number; midi: Midi }
  /** Every key of a channel is let go; of all channels where it is null. */
  | { kind: "allUp"; channel: number | null };

const NOTE_OFF = 0x8;
const NOTE_ON = 0x9;
const CONTROL = 0xb;
const RESET = 0xff;
/** Controllers after which no note of the channel sounds: all sound off, all notes off, and the four modes. */
const SILENCING = [120, 123, 124, 125, 126, 127];

/**
 * Reads one whole message (MIDI 1.0, "Summary of MIDI messages": the upper half of the first byte is its kind, the
 * lower the channel; note on with velocity 0 is note off). The Web MIDI API hands over one message at a time with
 * its status byte, so there is no running status to follow. 60 is middle C.
 * @param data status byte and data bytes
 * @returns channels 0 to 15, keys 0 to 127; null where the message is about no key, or broken
 */
export function readMidiMessage(data: ArrayLike<number>): KeyMessage | null {
  const [status = 0, first = -1, second = -1] = Array.from(data);
  if (status === RESET) return { kind: "allUp", channel: null };
  if (!isData(first) || !isData(second)) return null;
  const channel = status & 0xf;
  switch (status >> 4) {
    case NOTE_OFF:
      return { kind: "up", channel, midi: first };
    case NOTE_ON:
      return { kind: second === 0 ? "up" : "down", channel, midi: first };
    case CONTROL:
      return SILENCING.includes(first) ? { kind: "allUp", channel } : null;
    default:
      return null;
  }
}

function isData(byte: number): boolean {
  return Number.isInteger(byte) && byte >= 0 && byte <= 127;
}
