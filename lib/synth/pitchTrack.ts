import type { Cents, Hertz, Midi, Seconds } from "@/lib/units/quantities";

/** A pitch that holds from this time on, or is glided to when the point before it is another pitch. */
export interface PitchPoint {
  timeSec: Seconds;
  midi: Midi;
}

/** The shake of the hand on the bar; all strings under it share one. */
export interface Vibrato {
  /** When the hand begins to shake; it reaches its full width 0.3 s later. */
  startSec: Seconds;
  /** When it is still again; as long as the note sounds where left out. */
  endSec?: Seconds;
  rateHz: Hertz;
  /** Greatest distance from the note, to either side. */
  depthCents: Cents;
}

const VIBRATO_GROWTH_SEC: Seconds = 0.3;
/** A hand comes to rest so quickly. */
const VIBRATO_REST_SEC: Seconds = 0.1;

/**
 * Pitch at a time along a track of points in ascending time. Between two points the pitch moves by half a cosine,
 * as a pedal or a hand starts and stops; before the first and after the last it holds.
 */
export function pitchAt(track: readonly PitchPoint[], timeSec: Seconds): Midi {
  // No closure: it is asked from the audio thread, where nothing may be allocated.
  let next = 0;
  while (next < track.length && track[next]!.timeSec <= timeSec) next += 1;
  const to = track[next];
  if (to === undefined) return track[next - 1]?.midi ?? 0;
  const from = track[next - 1] ?? to;
  if (from.midi === to.midi) return to.midi;
  const way = (timeSec - from.timeSec) / (to.timeSec - from.timeSec);
  return from.midi + (to.midi - from.midi) * (0.5 - 0.5 * Math.cos(Math.PI * way));
}

/** How far a vibrato stands from the note, so long after it began. */
export function vibratoAfter(vibrato: Vibrato, sinceSec: Seconds): Cents {
  if (sinceSec <= 0) return 0;
  const depthCents = vibrato.depthCents * Math.min(sinceSec / VIBRATO_GROWTH_SEC, 1);
  return depthCents * Math.sin(2 * Math.PI * vibrato.rateHz * sinceSec);
}

/** How much of a vibrato is left at a time, 1 to 0, as the hand comes to rest before its end. */
export function vibratoLeft({ endSec }: Vibrato, timeSec: Seconds): number {
  return endSec === undefined ? 1 : Math.min(1, Math.max(0, (endSec - timeSec) / VIBRATO_REST_SEC));
}
