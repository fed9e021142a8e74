import type { SoundingOn } from "./HeardEvent";

/** Which notes of an event sound, as indices into its `notesMidi`, and on which strings, in the same order. */
interface Sounded {
  sounding: readonly number[];
  strings: readonly number[];
}

/**
 * How many notes that were heard to glide into an event must be picked anew, since they lie on another string than
 * before; infinite where a note that merely rings would change its string.
 * @param soundsOn of the event; none where all of it is picked
 * @param before how the event before it in time is played; null where that one is not
 * @param now how the event is played
 */
export function brokenGlides(
  soundsOn: readonly (SoundingOn | null)[] | undefined,
  before: Sounded | null,
  now: Sounded,
): number {
  if (!soundsOn) return 0;
  let broken = 0;
  for (let at = 0; at < now.sounding.length; at += 1) {
    const link = soundsOn[now.sounding[at]!];
    if (!link) continue;
    const there = before ? before.sounding.indexOf(link.from) : -1;
    if (there >= 0 && before!.strings[there] === now.strings[at]) continue;
    if (!link.glides) return Number.POSITIVE_INFINITY;
    broken += 1;
  }
  return broken;
}
