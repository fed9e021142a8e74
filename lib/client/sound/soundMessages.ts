import type { GroupName } from "@/lib/synth/groups";
import type { BankNote } from "@/lib/synth/StringSet";
import type { Seconds } from "@/lib/units/quantities";

/** Name under which the strings are registered with the audio thread. */
export const STRINGS_PROCESSOR = "liftbook-strings";
/** Where the start puts the audio thread's own code (lib/cli/start/bundleWorklets.ts). */
export const STRINGS_URL = "/sound/strings.js";

/** What the page tells the audio thread. */
export type SoundMessage =
  /** Gives a group its notes in place of those it had. */
  | { kind: "play"; group: GroupName; notes: readonly BankNote[] }
  /** How loud a group is heard, 0 to 1; said anew whenever it is given notes. */
  | { kind: "level"; group: GroupName; level: number }
  /** A second of the song is heard at a time of the audio context; it goes on at this speed. */
  | { kind: "song"; sec: Seconds; atSec: Seconds; speed: number }
  /** The song stands still. */
  | { kind: "halt" }
  /** The page is done: the processor may go. */
  | { kind: "close" };
