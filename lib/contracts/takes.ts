import type { TakeJudged } from "@/lib/fit/takes/TakeJudged";
import type { Cents, EpochMs, Hertz, Seconds } from "@/lib/units/quantities";

/**
 * A take: a player's own sound, recorded while the record played. It is its owner's, and nobody else learns of it
 * until its owner shares it with the book.
 *
 * Take and record lie on one line: frame 0 of the take's sound lies `leadSec` of the take before the record's
 * `startSec` was heard, and the record went at `speed` from there on, without a loop. So second t of the take sounded
 * together with second `startSec + (t - leadSec) * speed` of the record; {@link secondOfRecord} and
 * {@link secondOfTake} reckon it. What the device came late by (`delaySec`) has been taken off already.
 */
export interface Take {
  /** Made by the browser that recorded it, so that sending it twice keeps it once. */
  id: string;
  songId: string;
  ownerId: string;
  ownerName: string;
  isOwn: boolean;
  /** The part that was in hand; null where there was nothing to say, and for the first. */
  partId: string | null;
  /** Of the record: from where the take was played along. */
  startSec: Seconds;
  /** Of the record: how far it had come when the recording was stopped; the sound goes on for a short tail. */
  endSec: Seconds;
  /** Of the record while the take was made, 1 = its own. */
  speed: number;
  /** By how much the record was heard moved, retuning and transposing together: what was played along agrees with it there. */
  shiftCents: Cents;
  /** Of the take's sound before `startSec` was heard: the end of the count-in, so that a first pick that comes early is there. */
  leadSec: Seconds;
  /** Of the take's sound, lead and tail included. */
  durationSec: Seconds;
  /** What the sound would have lain too late by, and was moved by. */
  delaySec: Seconds;
  sampleRateHz: Hertz;
  channelCount: 1 | 2;
  byteCount: number;
  madeAtMs: EpochMs;
  isShared: boolean;
  /** What its own player's browser found when it held the take against the part; null until then. */
  judged: TakeJudged | null;
}

/** Header of `PUT /api/songs/:songId/takes/:takeId`, whose body is the WAV as it is: encodeURIComponent of a `NewTake` (takeSchemas.ts) as JSON. */
export const TAKE_HEADER = "x-take";

/** The longest take, lead and tail included. */
export const MAX_TAKE_SEC = 600;
/** The highest rate that browsers record at. */
export const MAX_TAKE_RATE_HZ = 192_000;
/** Of the longest: two channels of 16 bits at the highest rate, and the head. */
export const MAX_TAKE_BYTES = MAX_TAKE_SEC * MAX_TAKE_RATE_HZ * 4 + 1_024;
export const TAKE_MEDIA_TYPE = "audio/wav";

type OnRecord = Pick<Take, "startSec" | "leadSec" | "speed">;

/** Which second of the record sounded with a second of the take. */
export function secondOfRecord({ startSec, leadSec, speed }: OnRecord, takeSec: Seconds): Seconds {
  return startSec + (takeSec - leadSec) * speed;
}

/** Which second of the take sounded with a second of the record. */
export function secondOfTake({ startSec, leadSec, speed }: OnRecord, recordSec: Seconds): Seconds {
  return leadSec + (recordSec - startSec) / speed;
}
