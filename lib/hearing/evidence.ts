import { FrameMatrix } from "@/lib/dsp/FrameMatrix";
import { forEachFrame, frameCount } from "@/lib/dsp/framing";
import { binCount, type LogFrequencyScale, LogFrequencyTransform } from "@/lib/dsp/logFrequency";
import { OnsetFlux } from "@/lib/dsp/onsetEnvelope";
import { RealFft } from "@/lib/dsp/RealFft";
import type { Signal } from "@/lib/dsp/Signal";
import { hannWindow } from "@/lib/dsp/windows";
import type { Cents, Hertz } from "@/lib/units/quantities";
import { ONSETS, SPECTRUM } from "./parameters";

type OnFrame = (index: number, count: number) => void;

/** Rise of sound over time, one value a frame; frame i lies at i / frameRateHz seconds. */
export interface OnsetCurves {
  frameRateHz: Hertz;
  /** Mean over all bands. */
  all: Float32Array;
  /** Mean over the bands of bass and bass drum. */
  low: Float32Array;
}

/** Onset strength of the record, by spectral flux (see {@link OnsetFlux}). */
export function hearOnsets(signal: Signal, onFrame?: OnFrame): OnsetCurves {
  const { fftSize, hop } = ONSETS;
  const framing = { size: fftSize, hop };
  const window = hannWindow(fftSize);
  const full = 2 / window.reduce((sum, value) => sum + value, 0);
  const fft = new RealFft(
    fftSize,
    window.map((value) => value * full),
  );
  const flux = new OnsetFlux({ ...ONSETS, sampleRateHz: signal.sampleRateHz });
  const lowBands = flux.centresHz.filter((hz) => hz < ONSETS.lowBelowHz).length;
  const count = frameCount(signal, framing);
  const curves = {
    frameRateHz: signal.sampleRateHz / hop,
    all: new Float32Array(count),
    low: new Float32Array(count),
  };
  const magnitudes = new Float32Array(fft.binCount);
  const rise = new Float32Array(flux.bandCount);
  forEachFrame(
    signal,
    framing,
    fft.memory,
    (frame, index) => {
      fft.transformAt(frame);
      flux.next(fft.magnitudes(magnitudes), rise);
      let sum = 0;
      for (let b = 0; b < rise.length; b++) {
        sum += rise[b]!;
        if (b === lowBands - 1) curves.low[index] = sum / lowBands;
      }
      curves.all[index] = sum / rise.length;
    },
    onFrame,
  );
  return curves;
}

/** Log-frequency spectra of the record, bins in tune with it; frame i lies at i / frameRateHz seconds. */
export interface PitchSpectra {
  frameRateHz: Hertz;
  scale: LogFrequencyScale;
  frames: FrameMatrix;
}

/** The log-frequency spectra of the record (see {@link LogFrequencyTransform}). */
export function hearPitchSpectra(signal: Signal, tuningCents: Cents, onFrame?: OnFrame): PitchSpectra {
  const scale = { ...SPECTRUM, sampleRateHz: signal.sampleRateHz, tuningCents };
  const framing = { size: SPECTRUM.longestWindow, hop: SPECTRUM.hop };
  const transform = new LogFrequencyTransform(scale);
  const frames = new FrameMatrix(frameCount(signal, framing), binCount(scale));
  const { memory } = transform;
  const result = memory.take(frames.width);
  forEachFrame(
    signal,
    framing,
    memory,
    (frame, index) => {
      transform.transformAt(frame, result);
      frames.row(index).set(memory.floats.subarray(result / 4, result / 4 + frames.width));
    },
    onFrame,
  );
  return { frameRateHz: signal.sampleRateHz / framing.hop, scale, frames };
}
