import type { Hertz } from "@/lib/units/quantities";
import { hannWindow } from "./windows";

/**
 * Amplitudes of steady tones within a frame: its discrete-time Fourier transform under a Hann window, at given
 * frequencies. A tone further away than ten divided by the frame's length is held down by 60 dB and more (F. J. Harris,
 * "On the use of windows", Proc. IEEE 66 (1978): side lobes from -31 dB, falling by 18 dB an octave).
 * @returns for each frequency its amplitude, 1 for a sine at full scale
 */
export function toneAmplitudes(
  samples: Float32Array,
  sampleRateHz: Hertz,
  frequenciesHz: readonly Hertz[],
): number[] {
  const window = hannWindow(samples.length);
  const weighted = samples.map((sample, index) => sample * window[index]!);
  return frequenciesHz.map(
    (frequencyHz) => (4 * transformAt(weighted, frequencyHz / sampleRateHz)) / samples.length,
  );
}

/** Magnitude at a frequency in turns a sample. The phasor turns step by step, which a frame is too short to wear off. */
function transformAt(samples: Float32Array, turnsPerSample: number): number {
  const [stepRe, stepIm] = [Math.cos(2 * Math.PI * turnsPerSample), Math.sin(2 * Math.PI * turnsPerSample)];
  let [re, im, sumRe, sumIm] = [1, 0, 0, 0];
  for (let index = 0; index < samples.length; index += 1) {
    sumRe += samples[index]! * re;
    sumIm += samples[index]! * im;
    const turned = re * stepRe - im * stepIm;
    im = re * stepIm + im * stepRe;
    re = turned;
  }
  return Math.hypot(sumRe, sumIm);
}
