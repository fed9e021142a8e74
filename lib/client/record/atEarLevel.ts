import { Signal } from "@/lib/dsp/Signal";
import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import { LEVEL } from "@/lib/hearing/parameters";
import type { RecordStretch } from "./RecordStretch";

/** A stretch as the ear hears it: brought to its level as RecordIntake brings a whole record, and told mono from stereo. */
export function atEarLevel({ sampleRateHz, level, sideLevel, mid, side }: RecordStretch): StereoSignal {
  const signal = Signal.of(mid, sampleRateHz);
  if (level <= LEVEL.silence) return { signal, side: null };
  const isStereo = side !== null && sideLevel >= LEVEL.stereoFrom * level;
  const apart = isStereo ? Signal.of(side, sampleRateHz) : null;
  signal.scale(LEVEL.rms / level);
  apart?.scale(LEVEL.rms / level);
  return { signal, side: apart };
}
