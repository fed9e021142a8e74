import type { Midi, Seconds } from "@/lib/units/quantities";
import type { Glide } from "./glideActs";
import type { Placed } from "./Place";
import type { PlaceLocks } from "./PlaceLocks";

/** A note that sounds on from the event before without a new pick, so on the same string. */
export interface SoundingOn {
  /** Which note of the event before it is: an index into that one's `notesMidi`. */
  from: number;
  /** How long it was heard to sound on from here. One that does not glide may be stopped instead, at a cost. */
  forSec: Seconds;
  /** Whether it comes to its pitch here by a glide. */
  glides: boolean;
}

/** Notes that sound together from one moment on, to be given a place. */
export interface HeardEvent {
  startSec: Seconds;
  endSec: Seconds;
  notesMidi: readonly Midi[];
  /**
   * For each note, how it sounds on from the event before, the next earlier in time; null where it is picked. Left
   * out where all are picked.
   */
  soundsOn?: readonly (SoundingOn | null)[];
  /** Chord in force, Harte syntax. */
  chordLabel?: string;
  /** How these notes were heard to come out of those before. */
  glide?: Glide;
  /** Where they are known to be played, `strings[i]` sounding `notesMidi[i]`: nothing else is then tried. */
  place?: Placed;
  /** What a person holds to here; beside what is locked for the whole part. */
  locks?: PlaceLocks;
}
