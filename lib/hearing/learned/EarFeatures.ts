import { LogFrequencyTransform } from "@/lib/dsp/logFrequency";
import type { ReadableSignal } from "@/lib/dsp/ReadableSignal";
import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import { type Address, KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import { logKernel } from "@/lib/dsp/simd/logKernel";
import { type Kernel, startKernels } from "@/lib/dsp/simd/startKernels";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { HEARING_RATE_HZ } from "../parameters";
import {
  BANK_WINDOWS,
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

const [LONG, SHORT] = BANK_WINDOWS;
/** Samples under the longest window, which all windows of a frame lie in the middle of. */
const LONGEST_WINDOW = LONG.most;
const SHORT_STARTS_IN = (LONGEST_WINDOW - SHORT.most) / 2;

/** When a frame of the network sounds. */
export function frameSec(frame: number): Seconds {
  return (frame - PADDING_FRAMES) / FRAME_RATE_HZ;
}

/**
 * What the networks hear of a record: log-frequency spectra of each frame, three bins a semitone. Two of what the
 * channels share, in long and in short windows, compressed by a logarithm; where stereo is asked for also one of what
 * tells the channels apart, in long windows and compressed alike, and which channel is the louder in each of its bins,
 * from -1 (right) to 1 (left); both are 0 where there is no side. The record must come at {@link HEARING_RATE_HZ} with
 * a root-mean-square level of 0.1 of what the channels share; silence is put before and after it.
 */
export class EarFeatures {
  /** Frames of the whole record. */
  readonly count: number;
  /** Numbers in a row: the bins of the long bank, then of the short one, then of the side and the balance. */
  readonly width: number;
  /** Most frames asked for at once. */
  readonly mostRows: number;
  private readonly mid: Channel;
  private readonly side: Channel | null;
  private readonly memory = new KernelMemory();
  private readonly long: LogFrequencyTransform;
  private readonly short: LogFrequencyTransform;
  private readonly compress: Kernel;
  /** Floats of a row that are compressed. */
  private readonly compressed: number;
  private readonly row: Address;

  /** @param stereo whether the side and the balance are given too */
  constructor({ signal, side }: StereoSignal, mostRows: number, stereo: boolean) {
    const { memory } = this;
    this.count = Math.floor(signal.length / HOP) + 2 * PADDING_FRAMES + 2;
    this.mostRows = mostRows;
    this.width = (stereo ? 4 : 2) * BINS;
    this.long = transformOf(LONG, memory);
    this.short = transformOf(SHORT, memory);
    this.compress = startKernels(memory, [logKernel(LOG_GAIN, 1 / COMPRESSION_DIVISOR)]).log!;
    this.mid = new Channel(signal, memory, mostRows);
    this.side = stereo && side ? new Channel(side, memory, mostRows) : null;
    this.compressed = (this.side ? 3 : 2) * BINS;
    this.row = memory.take(this.width);
  }

  /** Writes the rows of frames `first` to `first + rows - 1` into `into`. */
  read(first: number, rows: number, into: Float32Array): void {
    const { mid, side, width, row } = this;
    const spectra = { mid: row, side: row + 4 * 2 * BINS, balance: row + 4 * 3 * BINS };
    mid.read(first, rows);
    side?.read(first, rows);
    const { floats } = this.memory;
    for (let frame = 0; frame < rows; frame++) {
      if (side) this.long.transformStereoAt(mid.at(frame), side.at(frame), spectra);
      else this.long.transformAt(mid.at(frame), row);
      this.short.transformAt(mid.at(frame) + 4 * SHORT_STARTS_IN, row + 4 * BINS);
      this.compress(row, this.compressed / 4);
      into.set(floats.subarray(row / 4, row / 4 + width), frame * width);
    }
  }
}

/** The samples under some frames of a signal, in the memory of the kernels. */
class Channel {
  private readonly signal: ReadableSignal;
  private readonly memory: KernelMemory;
  private readonly samples: Address;

  constructor(signal: ReadableSignal, memory: KernelMemory, mostRows: number) {
    this.signal = signal;
    this.memory = memory;
    this.samples = memory.take((mostRows - 1) * HOP + LONGEST_WINDOW);
  }

  read(first: number, rows: number): void {
    const length = (rows - 1) * HOP + LONGEST_WINDOW;
    const samples = this.memory.floats.subarray(this.samples / 4, this.samples / 4 + length);
    this.signal.read((first - PADDING_FRAMES) * HOP - LONGEST_WINDOW / 2, samples);
  }

  /** Where the longest window of one of these frames begins. */
  at(frame: number): Address {
    return this.samples + 4 * frame * HOP;
  }
}

function transformOf(
  { cycles, fewest, most }: (typeof BANK_WINDOWS)[number],
  memory: KernelMemory,
): LogFrequencyTransform {
  const scale = {
    periods: cycles,
    shortestWindow: fewest,
    longestWindow: most,
    sampleRateHz: HEARING_RATE_HZ,
    lowestMidi: LOWEST_MIDI,
    semitones: SEMITONES,
    binsPerSemitone: BINS_PER_SEMITONE,
    tuningCents: 0,
    kernelThreshold: KERNEL_THRESHOLD,
    windowRounding: "down",
  } as const;
  return new LogFrequencyTransform(scale, memory);
}
