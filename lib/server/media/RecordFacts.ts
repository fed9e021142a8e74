import type { Hertz, Seconds } from "@/lib/units/quantities";
import type { Container, FormatName } from "./formats";

/** What a record is, as its bytes tell. */
export interface RecordFacts {
  durationSec: Seconds;
  /** Channels in the file. */
  channelCount: number;
  sampleRateHz: Hertz;
  /** Highest sample against full scale, in decibels. */
  peakDbfs: number;
  container: Container;
  format: FormatName;
  /** To store and serve it under. */
  mediaType: string;
  /** False where browsers need a listening copy (`makeListeningCopy`). */
  playableInBrowsers: boolean;
  /** Bits a sample of plain or lossless records; null for lossy codecs. */
  bitsPerSample: number | null;
}

export interface RecordLimits {
  maxBytes: number;
  maxDurationSec: Seconds;
  /** Longest that reading may take. */
  timeLimitSec: Seconds;
}
