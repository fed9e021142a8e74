import type { Hertz } from "@/lib/units/quantities";
import type { Pluck } from "./Pluck";
import { SongClock } from "./SongClock";
import { StringVoice } from "./StringVoice";
import type { StringTimbre } from "./timbres";

/**
 * Adds plucked strings to `out`, one after another, each by a {@link StringVoice}.
 * @param out mono samples; what lies outside it is not written
 */
export function addPlucks(
  out: Float32Array,
  sampleRateHz: Hertz,
  timbre: StringTimbre,
  plucks: readonly Pluck[],
): void {
  const clock = new SongClock(sampleRateHz);
  clock.start(0, 0);
  const voice = new StringVoice(sampleRateHz);
  for (const pluck of plucks) {
    const first = Math.max(0, Math.round(clock.frameAt(pluck.startSec)));
    if (first >= out.length) continue;
    voice.pick(timbre, pluck, first, clock);
    voice.addTo(out, first, first, out.length - first, clock);
  }
}
