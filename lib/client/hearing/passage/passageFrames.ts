import type { FrameRange } from "@/lib/contracts/earCopy";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { HOP } from "@/lib/hearing/learned/layout";
import type { Hertz, Seconds } from "@/lib/units/quantities";

/** Listened to on either side of a passage: as far as the ear reaches, so that it is heard as in the whole record. */
const MARGIN_SEC: Seconds = 3.25;

/** A passage in whole milliseconds, as its notes are told (roundNote). */
export function toldPassage({ startSec, endSec }: HeardStretch): HeardStretch {
  return { startSec: Number(startSec.toFixed(3)), endSec: Number(endSec.toFixed(3)) };
}

/** The frames of a record that a passage is heard from; they begin where a frame of the ear does. */
export function framesFor({ startSec, endSec }: HeardStretch, sampleRateHz: Hertz): FrameRange {
  const start = Math.max(0, Math.floor((startSec - MARGIN_SEC) * sampleRateHz));
  return { startFrame: start - (start % HOP), endFrame: Math.ceil((endSec + MARGIN_SEC) * sampleRateHz) };
}
