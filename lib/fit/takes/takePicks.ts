import { forEachFrame, frameCount } from "@/lib/dsp/framing";
import { OnsetFlux } from "@/lib/dsp/onsetEnvelope";
import { RealFft } from "@/lib/dsp/RealFft";
import { parabolaOffset } from "@/lib/dsp/running";
import type { Signal } from "@/lib/dsp/Signal";
import { hannWindow } from "@/lib/dsp/windows";
import type { Seconds } from "@/lib/units/quantities";
import { PICKS } from "./takeParameters";

/** A moment at which something begins to sound. */
export interface TakePick {
  atSec: Seconds;
  /** How much sound it adds: root of the power that bins gain over it. Grows with the amplitude. */
  strength: number;
}

/**
 * Moments at which something begins in a take: peaks of the spectral flux of {@link OnsetFlux}, picked as in S. Boeck,
 * F. Krebs and M. Schedl, "Evaluating the online capabilities of onset detection methods", ISMIR 2012: a frame that is the
 * highest about it, and higher by a threshold than the mean about it.
 * @param signal at the ear's level
 */
export function takePicks(signal: Signal): TakePick[] {
  const { fftSize, hop } = PICKS;
  const window = hannWindow(fftSize);
  const full = 2 / window.reduce((sum, value) => sum + value, 0);
  const fft = new RealFft(
    fftSize,
    window.map((value) => value * full),
  );
  const curve = fluxCurve(signal, fft);
  const rateHz = signal.sampleRateHz / hop;
  const strengthAt = pickStrength(signal, fft);
  const picks: TakePick[] = [];
  for (const frame of peaks(curve, rateHz)) {
    const offset = parabolaOffset(curve[frame - 1] ?? 0, curve[frame]!, curve[frame + 1] ?? 0);
    const atSec = (frame + offset) / rateHz - PICKS.delaySec;
    picks.push({ atSec, strength: strengthAt(atSec) });
  }
  return picks;
}

function fluxCurve(signal: Signal, fft: RealFft): Float32Array {
  const { fftSize, hop } = PICKS;
  const framing = { size: fftSize, hop };
  const flux = new OnsetFlux({ ...PICKS, sampleRateHz: signal.sampleRateHz });
  const curve = new Float32Array(frameCount(signal, framing));
  const magnitudes = new Float32Array(fft.binCount);
  const rise = new Float32Array(flux.bandCount);
  forEachFrame(signal, framing, fft.memory, (frame, index) => {
    fft.transformAt(frame);
    flux.next(fft.magnitudes(magnitudes), rise);
    curve[index] = rise.reduce((sum, value) => sum + value, 0) / rise.length;
  });
  return curve;
}

function peaks(curve: Float32Array, rateHz: number): number[] {
  const frames = (sec: Seconds) => Math.round(sec * rateHz);
  const [highBefore, highAfter] = [frames(PICKS.highestBeforeSec), frames(PICKS.highestAfterSec)];
  const [meanBefore, meanAfter] = [frames(PICKS.meanBeforeSec), frames(PICKS.meanAfterSec)];
  const together = frames(PICKS.togetherSec);
  const found: number[] = [];
  for (let n = 0; n < curve.length; n++) {
    const value = curve[n]!;
    const about = curve.subarray(Math.max(0, n - highBefore), n + highAfter + 1);
    if (about.some((other) => other > value)) continue;
    const near = curve.subarray(Math.max(0, n - meanBefore), n + meanAfter + 1);
    const mean = near.reduce((sum, other) => sum + other, 0) / near.length;
    if (value < mean + PICKS.over) continue;
    if (found.length > 0 && n - found.at(-1)! <= together) continue;
    found.push(n);
  }
  return found;
}

function pickStrength(signal: Signal, fft: RealFft): (atSec: Seconds) => number {
  const frame = new Float32Array(PICKS.fftSize);
  const before = new Float32Array(fft.binCount);
  const after = new Float32Array(fft.binCount);
  const look = (atSec: Seconds, into: Float32Array) => {
    const first = Math.round(atSec * signal.sampleRateHz) - PICKS.fftSize / 2;
    fft.transform(signal.read(first, frame));
    fft.magnitudes(into);
  };
  return (atSec) => {
    look(atSec - PICKS.strengthReachSec, before);
    look(atSec + PICKS.strengthReachSec, after);
    let power = 0;
    for (let k = 0; k < after.length; k++) power += Math.max(0, after[k]! - before[k]!) ** 2;
    return Math.sqrt(power);
  };
}
