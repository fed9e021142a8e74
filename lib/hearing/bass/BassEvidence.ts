import type { FrameMatrix } from "@/lib/dsp/FrameMatrix";
import type { Hertz, Midi, Seconds } from "@/lib/units/quantities";

/** E1, the lowest open string of a bass, to C4, where bass lines end. */
export const LOWEST_BASS: Midi = 28;
export const BASS_PITCHES = 33;

/** What is known of the bass at each moment, from whichever ear. Frame i lies at `startSec + i / frameRateHz`. */
export interface BassEvidence {
  frameRateHz: Hertz;
  startSec: Seconds;
  /**
   * Natural log of the probability that the bass sounds at each semitone from {@link LOWEST_BASS} up, then that it
   * rests: rows of BASS_PITCHES + 1.
   */
  sounding: FrameMatrix;
  /** Natural log of the odds that a note of the bass begins in this frame at each semitone: rows of BASS_PITCHES. */
  onset: FrameMatrix;
}
