import type { ReadableSignal } from "@/lib/dsp/ReadableSignal";
import { Signal } from "@/lib/dsp/Signal";
import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import type { Cents } from "@/lib/units/quantities";
import type { HeardNote, HeardStretch } from "../Hearing";
import { FRAME_RATE_HZ } from "../learned/EarFeatures";
import { HOP } from "../learned/layout";
import type { NotesEar } from "../learned/NotesEar";
import { hearNotes } from "./hearNotes";
import { frameAt, NoteMaps } from "./NoteMaps";

/**
 * Frames heard about the passage and not told: the ear sees 1.6 s to each side and its longest window 0.2 s more,
 * so that a passage is heard as in the whole record.
 */
const MARGIN_FRAMES = Math.ceil(2 * FRAME_RATE_HZ);
/** Frames about the passage of which the notes are followed: what sounds on into it, and what leaves it. */
const CONTEXT_FRAMES = Math.ceil(FRAME_RATE_HZ);

/** A record at the ear's rate and level, and what its notes are heard with. */
export interface PassageHearing extends StereoSignal {
  /** How far the record stands from A4 = 440 Hz. */
  tuningCents: Cents;
  ear: NotesEar;
}

/**
 * The notes that begin in a passage, in order of time. Only the passage and a few seconds about it are listened to.
 * @param onFrame told each frame's number before it is heard; throw there to stop
 * @throws RangeError for a passage that ends before it begins
 */
export function hearPassage(
  { signal, side, tuningCents, ear }: PassageHearing,
  { startSec, endSec }: HeardStretch,
  onFrame?: (index: number, count: number) => void,
): HeardNote[] {
  if (!(endSec >= startSec)) {
    throw new RangeError(`A passage must end after it begins, not run from ${startSec} s to ${endSec} s.`);
  }
  const from = Math.max(0, frameAt(startSec) - CONTEXT_FRAMES);
  const to = frameAt(endSec) + CONTEXT_FRAMES;
  const cut = Math.max(0, from - MARGIN_FRAMES);
  const maps = new NoteMaps(ear.noteMaps, from, to);
  const stretch = (whole: ReadableSignal): Signal => stretchOf(whole, cut * HOP, (to + MARGIN_FRAMES) * HOP);
  ear.listen(
    { signal: stretch(signal), side: side && stretch(side) },
    ({ index, values, step }) => maps.keep({ index: index + cut, values, step }),
    onFrame,
  );
  return hearNotes({ maps, signal, tuningCents }).filter(
    (note) => startSec <= note.startSec && note.startSec < endSec,
  );
}

function stretchOf(signal: ReadableSignal, start: number, end: number): Signal {
  const samples = new Float32Array(Math.max(0, Math.min(signal.length, end) - start));
  return Signal.of(signal.read(start, samples), signal.sampleRateHz);
}
