import type { Hertz, Seconds } from "@/lib/units/quantities";
import type { Container, FormatName } from "./formats";
import type { SampleReceiver } from "./SampleReceiver";

/** A record as samples. */
export interface DecodedAudio {
  sampleRateHz: Hertz;
  /**
   * One or two channels of equal length, full scale at +-1. A record of more channels is folded to one, their
   * average. None where a receiver has taken the samples.
   */
  channels: Float32Array<ArrayBuffer>[];
  durationSec: Seconds;
  container: Container;
  format: FormatName;
  /** What the bytes are, whatever name they came under. */
  mediaType: string;
  /** Channels in the file itself. */
  sourceChannelCount: number;
  /** Bits a sample where the file holds plain or lossless samples; null for lossy codecs. */
  bitsPerSample: number | null;
}

/** What every decoder is given. */
export interface DecodeOptions {
  /** Decoding ends with `too-long` past this. */
  maxDurationSec: Seconds;
  /** Takes the samples as they come; they are then not kept. */
  receiver?: SampleReceiver;
  /** Called with 0 to 1 as the file is read. */
  onProgress?: (fraction: number) => void;
}
