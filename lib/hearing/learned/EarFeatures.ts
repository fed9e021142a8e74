import { LogFrequencyTransform } from "@/lib/dsp/logFrequency";
import type { ResampledSignal } from "@/lib/dsp/resample";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { HEARING_RATE_HZ } from "../parameters";
import {
  BANK_WINDOWS,
  BANKS,
  BINS,
  BINS_PER_SEMITONE,
  HOP,
  LOG_GAIN,
  LOWEST_MIDI,
  PADDING_FRAMES,
  SEMITONES,
} from "./layout";

export const FRAME_RATE_HZ: Hertz = HEARING_RATE_HZ / HOP;

const COMPRESSION_DIVISOR = 4;
/** A wider kernel than for chroma, since the logarithm lifts what is left out. */
const KERNEL_THRESHOLD = 0.0003;

/** When a frame of the network sounds. */
export function frameSec(frame: number): Seconds {
  return (frame - PADDING_FRAMES) / FRAME_RATE_HZ;
}

/**
 * What the network hears of a record: two log-frequency spectra a frame, three bins a semitone, compressed by a
 * logarithm. The record must come at {@link HEARING_RATE_HZ} with a root-mean-square level of 0.1; silence is put
 * before and after it.
 */
export class EarFeatures {
  /** Frames of the whole record. */
  readonly count: number;
  /** Numbers in a row: the bins of the long bank, then of the short one. */
  static readonly width = BANKS * BINS;
  private readonly signal: ResampledSignal;
  private readonly banks: { transform: LogFrequencyTransform; frame: Float64Array }[];
  private readonly samples: Float32Array;

  /** @param mostRows most frames asked for at once */
  constructor(signal: ResampledSignal, mostRows: number) {
    this.signal = signal;
    this.count = Math.floor(signal.length / HOP) + 2 * PADDING_FRAMES + 2;
    this.banks = BANK_WINDOWS.map(({ cycles, fewest, most }) => ({
      transform: new LogFrequencyTransform({
        periods: cycles,
        shortestWindow: fewest,
        longestWindow: most,
        sampleRateHz: signal.sampleRateHz,
        lowestMidi: LOWEST_MIDI,
        semitones: SEMITONES,
        binsPerSemitone: BINS_PER_SEMITONE,
        tuningCents: 0,
        kernelThreshold: KERNEL_THRESHOLD,
        windowRounding: "down",
      }),
      frame: new Float64Array(most),
    }));
    this.samples = new Float32Array((mostRows - 1) * HOP + BANK_WINDOWS[0].most);
  }

  /** Writes the rows of frames `first` to `first + rows - 1` into `into`. */
  read(first: number, rows: number, into: Float32Array): void {
    const longest = BANK_WINDOWS[0].most;
    const samples = this.samples.subarray(0, (rows - 1) * HOP + longest);
    this.signal.read((first - PADDING_FRAMES) * HOP - longest / 2, samples);
    for (let row = 0; row < rows; row++) {
      this.banks.forEach(({ transform, frame }, bank) => {
        const start = row * HOP + (longest - frame.length) / 2;
        for (let n = 0; n < frame.length; n++) frame[n] = samples[start + n]!;
        const from = (row * BANKS + bank) * BINS;
        const bins = into.subarray(from, from + BINS);
        transform.transform(frame, bins);
        for (let k = 0; k < BINS; k++) {
          bins[k] = Math.log1p(LOG_GAIN * bins[k]!) / COMPRESSION_DIVISOR;
        }
      });
    }
  }
}
