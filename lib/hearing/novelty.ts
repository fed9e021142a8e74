import { runningMean } from "@/lib/dsp/running";
import type { Hertz } from "@/lib/units/quantities";
import { NOVELTY } from "./beatParameters";
import type { OnsetCurves, PitchSpectra } from "./evidence";
import type { LearnedBeats } from "./learned/beatCurves";

/** Evidence for beats on one time axis; frame i lies at i / frameRateHz seconds. */
export interface BeatEvidence {
  frameRateHz: Hertz;
  /** Onset strength, 0 up, about 1 at a plain onset, at most `NOVELTY.ceiling`. */
  onset: Float64Array;
  /** The same of bass and bass drum. */
  low: Float64Array;
  /** How much the harmony after this moment differs from the harmony before, 0 to 1. */
  harmony: Float64Array;
  /** What a learned ear says on the same time axis; null where there is none. */
  learned: LearnedBeats | null;
}

/**
 * @param learned what a learned ear says on the time axis of the onsets; null where there is none. Where nothing ever
 *   begins, as in silence, it is not asked: it would hear beats in nothing.
 */
export function beatEvidence(
  onsets: OnsetCurves,
  spectra: PitchSpectra,
  learned: LearnedBeats | null,
): BeatEvidence {
  const { frameRateHz } = onsets;
  return {
    frameRateHz,
    onset: normalise(onsets.all, frameRateHz),
    low: normalise(onsets.low, frameRateHz),
    harmony: harmonicNovelty(spectra, frameRateHz, onsets.all.length),
    learned: onsets.all.some((value) => value > 0) ? learned : null,
  };
}

/** Takes off the local mean, keeps what rises over it, and divides by the local spread, so that soft and loud passages weigh alike. */
function normalise(curve: Float32Array, frameRateHz: Hertz): Float64Array {
  const mean = runningMean(curve, Math.round(NOVELTY.meanReachSec * frameRateHz));
  const raised = Float64Array.from(curve, (value, i) => Math.max(0, value - mean[i]!));
  const squares = raised.map((value) => value * value);
  const local = runningMean(squares, Math.round(NOVELTY.levelReachSec * frameRateHz));
  const whole = squares.reduce((sum, value) => sum + value, 0) / Math.max(1, squares.length);
  return raised.map((value, i) => {
    const level = Math.sqrt(local[i]! + NOVELTY.levelFloor * whole);
    return level > 0 ? Math.min(NOVELTY.ceiling, value / (2 * level)) : 0;
  });
}

/**
 * Distance (1 - cosine) between the mean chroma of a short stretch after each moment and one before it: the
 * checkerboard of J. Foote, "Automatic audio segmentation using a measure of audio novelty", ICME 2000, along
 * the diagonal; on chroma as in C. Harte, M. Sandler and M. Gasser, "Detecting harmonic change in musical
 * audio", AMCMM 2006.
 */
function harmonicNovelty(spectra: PitchSpectra, frameRateHz: Hertz, length: number): Float64Array {
  const { frames, scale } = spectra;
  const sums = new Float64Array(12 * (frames.rows + 1));
  for (let i = 0; i < frames.rows; i++) {
    const row = frames.row(i);
    const chroma = new Float64Array(12);
    for (let s = NOVELTY.harmonyLowestSemitone; s < NOVELTY.harmonyHighestSemitone; s++) {
      const at = scale.binsPerSemitone * s + (scale.binsPerSemitone - 1) / 2;
      chroma[(scale.lowestMidi + s) % 12]! += row[at]!;
    }
    const norm = Math.hypot(...chroma) + NOVELTY.silence;
    for (let p = 0; p < 12; p++) sums[12 * (i + 1) + p] = sums[12 * i + p]! + chroma[p]! / norm;
  }
  const reach = Math.round(NOVELTY.harmonyReachSec * spectra.frameRateHz);
  const coarse = Float64Array.from({ length: frames.rows }, (_, i) => {
    const low = Math.max(0, i - reach);
    const high = Math.min(frames.rows, i + reach);
    let dot = 0;
    let before = 0;
    let after = 0;
    for (let p = 0; p < 12; p++) {
      const a = sums[12 * i + p]! - sums[12 * low + p]!;
      const b = sums[12 * high + p]! - sums[12 * i + p]!;
      dot += a * b;
      before += a * a;
      after += b * b;
    }
    return before > 0 && after > 0 ? 1 - dot / Math.sqrt(before * after) : 0;
  });
  return Float64Array.from({ length }, (_, i) => {
    const place = (i * spectra.frameRateHz) / frameRateHz;
    const low = Math.min(coarse.length - 1, Math.floor(place));
    const high = Math.min(coarse.length - 1, low + 1);
    return coarse[low]! + (place - low) * (coarse[high]! - coarse[low]!);
  });
}
