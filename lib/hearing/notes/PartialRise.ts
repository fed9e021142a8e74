import { LogFrequencyTransform } from "@/lib/dsp/logFrequency";
import type { Signal } from "@/lib/dsp/Signal";
import type { Cents, Midi } from "@/lib/units/quantities";
import {
  BANK_WINDOWS,
  BINS,
  BINS_PER_SEMITONE,
  HOP,
  LOWEST_MIDI,
  PADDING_FRAMES,
  SEMITONES,
} from "../learned/layout";
import { RISE } from "./parameters";

/**
 * How much louder the partials of a note become at a moment: half-wave spectral flux (P. Masri 1996; S. Dixon, "Onset
 * detection revisited", DAFx 2006) taken over the partials of one note only, on a log-frequency spectrum of short
 * windows. It tells a string that is picked anew from one that is merely held while others are struck.
 */
export class PartialRise {
  private readonly transform: LogFrequencyTransform;
  private readonly signal: Signal;
  private readonly frame: Float32Array;
  private readonly spectra = new Map<number, Float32Array>();

  /** @param signal at the ear's rate and level */
  constructor(signal: Signal, tuningCents: Cents) {
    const { cycles, fewest, most } = BANK_WINDOWS[1];
    this.signal = signal;
    this.frame = new Float32Array(most);
    this.transform = new LogFrequencyTransform({
      sampleRateHz: signal.sampleRateHz,
      lowestMidi: LOWEST_MIDI,
      semitones: SEMITONES,
      binsPerSemitone: BINS_PER_SEMITONE,
      periods: cycles,
      shortestWindow: fewest,
      longestWindow: most,
      tuningCents,
    });
  }

  /** Mean over the partials of the log of their loudest after the frame over their loudest before it, nats. */
  at(frame: number, midi: Midi): number {
    let sum = 0;
    for (let partial = 1; partial <= RISE.partials; partial++) {
      const bin = Math.round(BINS_PER_SEMITONE * (midi - LOWEST_MIDI + 12 * Math.log2(partial))) + 1;
      const after = this.loudest(frame + RISE.after[0], frame + RISE.after[1], bin);
      const before = this.loudest(frame - RISE.before[1], frame - RISE.before[0], bin);
      sum += Math.log((after + RISE.floor) / (before + RISE.floor));
    }
    return sum / RISE.partials;
  }

  private loudest(from: number, to: number, bin: number): number {
    let loudest = 0;
    for (let frame = from; frame <= to; frame++) {
      const spectrum = this.spectrum(frame);
      for (let k = Math.max(0, bin - 1); k <= Math.min(BINS - 1, bin + 1); k++) {
        loudest = Math.max(loudest, spectrum[k]!);
      }
    }
    return loudest;
  }

  private spectrum(frame: number): Float32Array {
    const known = this.spectra.get(frame);
    if (known) return known;
    const spectrum = new Float32Array(BINS);
    this.signal.read((frame - PADDING_FRAMES) * HOP - this.frame.length / 2, this.frame);
    this.transform.transform(this.frame, spectrum);
    this.spectra.set(frame, spectrum);
    return spectrum;
  }
}
