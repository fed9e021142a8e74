import type { Cents, Seconds } from "@/lib/units/quantities";
import type { PitchPoint, Vibrato } from "./pitchTrack";

/**
 * How a string is stopped: by the bar that is lifted off it, by the fingers that let go of it (bass, guitar), by the side of
 * the hand laid on the strings (palm block), or by the pick that comes back to the string it picks next (pick block).
 */
export type EndingName = "lift" | "letGo" | "palm" | "pick";

/** What stopping does to a string (measures of ear, no source). */
export interface Ending {
  /** From the stop to silence. */
  silentAfterSec: Seconds;
  /** Damping that comes on top of the string's own, of all partials, 1/s. */
  damping: number;
  /** The same growing with frequency: flesh takes treble first. No unit: 1/s for each hertz. */
  dampingPerHz: number;
}

export const ENDINGS: Readonly<Record<EndingName, Ending>> = {
  lift: { silentAfterSec: 0.035, damping: 0, dampingPerHz: 0 },
  letGo: { silentAfterSec: 0.065, damping: 0, dampingPerHz: 0 },
  palm: { silentAfterSec: 0.06, damping: 45, dampingPerHz: 0.12 },
  pick: { silentAfterSec: 0.022, damping: 90, dampingPerHz: 0.03 },
};

/** One string from its pick until it is stopped. Times are on the clock that the voice plays by. */
export interface Pluck {
  startSec: Seconds;
  /** When it is stopped; infinite for a sound that goes on until it is told to stop. */
  endSec: Seconds;
  /** Points in ascending time. */
  pitch: readonly PitchPoint[];
  vibrato: Vibrato | null;
  /** Loudness, 0 to 1. */
  level: number;
  /** Fade-in, by the ear's clock. */
  attackSec: Seconds;
  ending: EndingName;
  /** Gain that the volume pedal adds while the string dies, reached after `openingSec` by the ear's clock; 0 for none. */
  opening: number;
  openingSec: Seconds;
  /** Loudness of the pick's scrape beside the string's; 0 for none. */
  scrape: number;
  /** Whatever number: the scrape is the same each time for the same. */
  scrapeSeed: number;
  /** How far the string stands from A4 = 440 Hz. */
  tuningCents: Cents;
}
