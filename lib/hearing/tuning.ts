import { forEachFrame } from "@/lib/dsp/framing";
import { RealFft } from "@/lib/dsp/RealFft";
import { parabolaOffset } from "@/lib/dsp/running";
import type { Signal } from "@/lib/dsp/Signal";
import { hannWindow } from "@/lib/dsp/windows";
import { hertzToMidi } from "@/lib/units/pitch";
import type { Cents } from "@/lib/units/quantities";
import type { Certainty } from "./Hearing";
import { TUNING } from "./parameters";

export interface HeardTuning {
  /** -50 to +50 from A4 = 440 Hz. */
  cents: Cents;
  confidence: Certainty;
}

/**
 * How far the record stands from A4 = 440 Hz: the spectral peaks of every frame, each by its distance from the
 * nearest equal-tempered key, weigh on a circle of 100 cents, and the fullest place on the circle wins.
 * Circular statistics of peaks: K. Dressler and S. Streich, "Tuning frequency estimation using circular
 * statistics", ISMIR 2007. Their circular mean is replaced by the mode of the smoothed circle, which glides,
 * vibrato and a voice between the keys do not pull away.
 */
export function hearTuning(signal: Signal, onFrame?: (index: number, count: number) => void): HeardTuning {
  const { fftSize, hop } = TUNING;
  const fft = new RealFft(fftSize, hannWindow(fftSize));
  const magnitudes = new Float32Array(fft.binCount);
  const circle = new Float64Array(100);
  forEachFrame(
    signal,
    { size: fftSize, hop },
    fft.memory,
    (frame) => {
      fft.transformAt(frame);
      addPeaks(fft.magnitudes(magnitudes), signal.sampleRateHz / fftSize, circle);
    },
    onFrame,
  );
  return modeOfCircle(circle);
}

/** Adds the peaks of one spectrum to the circle of cents, place c + 50 for c cents, weighed by root magnitude. */
function addPeaks(magnitudes: Float32Array, binHz: number, circle: Float64Array): void {
  const low = Math.ceil(TUNING.lowestHz / binHz);
  const high = Math.floor(TUNING.highestHz / binHz);
  let strongest = 0;
  for (let bin = low; bin <= high; bin++) strongest = Math.max(strongest, magnitudes[bin]!);
  const floor = Math.max(strongest * TUNING.peakFloor, 1e-6 * magnitudes.length);
  for (let bin = low; bin <= high; bin++) {
    const at = magnitudes[bin]!;
    if (at < floor || at <= magnitudes[bin - 1]! || at < magnitudes[bin + 1]!) continue;
    if (at <= magnitudes[bin - 2]! || at < magnitudes[bin + 2]!) continue;
    const offset = parabolaOffset(
      Math.log(magnitudes[bin - 1]! + 1e-12),
      Math.log(at),
      Math.log(magnitudes[bin + 1]! + 1e-12),
    );
    const midi = hertzToMidi((bin + offset) * binHz);
    const cents = 100 * (midi - Math.round(midi));
    circle[(Math.round(cents) + 150) % 100]! += Math.sqrt(at);
  }
}

function modeOfCircle(circle: Float64Array): HeardTuning {
  const total = circle.reduce((sum, value) => sum + value, 0);
  if (total === 0) return { cents: 0, confidence: 0 };
  const smooth = Float64Array.from(circle, (_, place) => {
    let sum = 0;
    for (let d = -50; d < 50; d++) {
      sum += circle[(place + d + 100) % 100]! * Math.exp(-0.5 * (d / TUNING.smoothingCents) ** 2);
    }
    return sum;
  });
  const top = smooth.indexOf(Math.max(...smooth));
  const offset = parabolaOffset(smooth[(top + 99) % 100]!, smooth[top]!, smooth[(top + 1) % 100]!);
  let cents = top - 50 + offset;
  if (cents < -50) cents += 100;
  return { cents, confidence: chanceNear(top, smooth, total) };
}

/**
 * Probability that the tuning lies within {@link TUNING}.rightCents of the fullest place, were the record worth so many
 * independent peaks: those of neighbouring frames and of one note are not.
 */
function chanceNear(top: number, smooth: Float64Array, total: number): number {
  const chances = smooth.map((value) => Math.exp((TUNING.peaksWorth * (value - smooth[top]!)) / total));
  let near = 0;
  for (let d = -TUNING.rightCents; d <= TUNING.rightCents; d++) near += chances[(top + d + 100) % 100]!;
  return near / chances.reduce((sum, value) => sum + value, 0);
}
