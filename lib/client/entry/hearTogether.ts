import { Resampler } from "@/lib/dsp/Resampler";
import { rms } from "@/lib/dsp/rms";
import type { HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import type { Hertz, Midi, Seconds } from "@/lib/units/quantities";
import type { RecordStretch } from "../record/RecordStretch";
import { RINGS_SEC } from "./pickedTogether";

/** Notes count that ring at the end of the sound, within this of it. */
const AT_END_SEC: Seconds = 0.15;

/** A moment's sound as the notes ear takes it: at its rate, in mono, to be heard from end to end. */
export function asStretch(
  samples: Float32Array,
  sampleRateHz: Hertz,
): { stretch: RecordStretch; passage: HeardStretch } {
  const mid = new Float32Array(Math.ceil((samples.length * HEARING_RATE_HZ) / sampleRateHz));
  let filled = 0;
  const resampler = new Resampler(sampleRateHz, HEARING_RATE_HZ, (block) => {
    mid.set(block.subarray(0, mid.length - filled), filled);
    filled = Math.min(mid.length, filled + block.length);
  });
  resampler.push(samples);
  resampler.finish();
  return {
    stretch: { sampleRateHz: HEARING_RATE_HZ, startFrame: 0, level: rms(mid), sideLevel: 0, mid, side: null },
    passage: { startSec: 0, endSec: mid.length / HEARING_RATE_HZ },
  };
}

/** Of the notes that were heard in it, the pitches of those that were picked last and ring, ascending, each once. */
export function ringingAtEnd(notes: readonly HeardNote[], endSec: Seconds): Midi[] {
  const ringing = notes.filter(
    (note) => note.endSec > endSec - AT_END_SEC && note.startSec > endSec - 1.5 * RINGS_SEC,
  );
  return [...new Set(ringing.map(({ midi }) => midi))].sort((a, b) => a - b);
}
