import type { HeardEvent } from "./HeardEvent";
import type { Weights } from "./weights";

/** What of an event's notes sounds, where some that ring on may be stopped. */
export interface SoundingChoice {
  /** Indices into the event's `notesMidi`: those picked, those gliding, then those that go on ringing. */
  sounding: readonly number[];
  /** How many of them are picked, the first ones. */
  pickedCount: number;
  /** Cost of what is stopped. */
  stopping: number;
}

/** Strings that ring beside those picked at most: with more no search is worth its time, and no hand rings them. */
const SOUNDING_AT_ONCE = 5;

/** Every choice of what rings on into an event; all of it first, none of it last. */
export function soundingChoices(
  { notesMidi, soundsOn = [] }: HeardEvent,
  { stoppedPerSec, stoppedMostSec }: Pick<Weights, "stoppedPerSec" | "stoppedMostSec">,
): SoundingChoice[] {
  const all = notesMidi.map((_, note) => note);
  const picked = all.filter((note) => !soundsOn[note]);
  const gliding = all.filter((note) => soundsOn[note]?.glides);
  const ringing = all.filter((note) => soundsOn[note] && !soundsOn[note].glides);
  const costOfStopping = (note: number) =>
    stoppedPerSec * Math.min(soundsOn[note]?.forSec ?? 0, stoppedMostSec);
  return choices(ringing).flatMap((kept): SoundingChoice[] => {
    const sounding = [...picked, ...gliding, ...kept];
    if (sounding.length === 0 || (kept.length > 0 && sounding.length > SOUNDING_AT_ONCE)) return [];
    const stopped = ringing.filter((note) => !kept.includes(note));
    const stopping = stopped.reduce((sum, note) => sum + costOfStopping(note), 0);
    return [{ sounding, pickedCount: picked.length, stopping }];
  });
}

/** Every choice of some, all or none of a list; all first, none last. */
function choices(list: readonly number[]): number[][] {
  const count = 2 ** list.length;
  return Array.from({ length: count }, (_, nth) => list.filter((_, at) => ((count - 1 - nth) >> at) & 1));
}
