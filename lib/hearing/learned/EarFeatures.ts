import { LogFrequencyTransform } from "@/lib/dsp/logFrequency";
import type { Signal } from "@/lib/dsp/Signal";
import { type Address, KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import { logKernel } from "@/lib/dsp/simd/logKernel";
import { type Kernel, startKernels } from "@/lib/dsp/simd/startKernels";
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

/** Samples under the longest window, which all windows of a frame lie in the middle of. */
const LONGEST_WINDOW = BANK_WINDOWS[0].most;

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
  private readonly signal: Signal;
  private readonly memory = new KernelMemory();
  private readonly banks: { transform: LogFrequencyTransform; startsIn: number }[];
  private readonly compress: Kernel;
  private readonly samples: Address;
  private readonly row: Address;

  /** @param mostRows most frames asked for at once */
  constructor(signal: Signal, mostRows: number) {
    this.signal = signal;
    this.count = Math.floor(signal.length / HOP) + 2 * PADDING_FRAMES + 2;
    this.banks = BANK_WINDOWS.map(({ cycles, fewest, most }) => ({
      transform: new LogFrequencyTransform(
        {
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
        },
        this.memory,
      ),
      startsIn: (LONGEST_WINDOW - most) / 2,
    }));
    this.compress = startKernels(this.memory, [logKernel(LOG_GAIN, 1 / COMPRESSION_DIVISOR)]).log!;
    this.samples = this.memory.take((mostRows - 1) * HOP + LONGEST_WINDOW);
    this.row = this.memory.take(EarFeatures.width);
  }

  /** Writes the rows of frames `first` to `first + rows - 1` into `into`. */
  read(first: number, rows: number, into: Float32Array): void {
    const { floats } = this.memory;
    const length = (rows - 1) * HOP + LONGEST_WINDOW;
    const samples = floats.subarray(this.samples / 4, this.samples / 4 + length);
    this.signal.read((first - PADDING_FRAMES) * HOP - LONGEST_WINDOW / 2, samples);
    for (let row = 0; row < rows; row++) {
      this.banks.forEach(({ transform, startsIn }, bank) => {
        transform.transformAt(this.samples + 4 * (row * HOP + startsIn), this.row + 4 * bank * BINS);
      });
      this.compress(this.row, EarFeatures.width / 4);
      into.set(floats.subarray(this.row / 4, this.row / 4 + EarFeatures.width), row * EarFeatures.width);
    }
  }
}
