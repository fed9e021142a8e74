import type { Hertz } from "@/lib/units/quantities";

/** Takes the samples of a record as they are decoded, so that they need not all be held at once. */
export interface SampleReceiver {
  /** Told once, before any samples. @param channelCount one or two */
  begin(channelCount: number, sampleRateHz: Hertz): void;
  /** The next samples: the first `count` of each channel, full scale +-1. The arrays are used again. */
  take(channels: readonly Float32Array[], count: number): void;
}

/** Hands everything on to several others. */
export class ToAll implements SampleReceiver {
  private readonly receivers: readonly SampleReceiver[];

  constructor(receivers: readonly SampleReceiver[]) {
    this.receivers = receivers;
  }

  begin(channelCount: number, sampleRateHz: Hertz): void {
    for (const receiver of this.receivers) receiver.begin(channelCount, sampleRateHz);
  }

  take(channels: readonly Float32Array[], count: number): void {
    for (const receiver of this.receivers) receiver.take(channels, count);
  }
}
