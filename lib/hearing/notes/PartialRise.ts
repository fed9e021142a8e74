import type { Signal } from "@/lib/dsp/Signal";
import type { Cents, Midi } from "@/lib/units/quantities";
import { BANK_WINDOWS, BINS, HOP, PADDING_FRAMES } from "../learned/layout";
import { NoteSpectra } from "./NoteSpectra";
import { RISE } from "./parameters";

/**
 * How much louder the partials of a note become at a moment: half-wave spectral flux (P. Masri 1996; S. Dixon, "Onset
 * detection revisited", DAFx 2006) taken over the partials of one note only, on a log-frequency spectrum of short
 * windows. It tells a string that is picked anew from one that is merely held while others are struck.
 */
export class PartialRise {
  private readonly spectra: NoteSpectra;
  /** Spectra read so far, by frame. */
  private readonly known = new Map<number, Float32Array>();

  /** @param signal at the ear's rate and level */
  constructor(signal: Signal, tuningCents: Cents) {
    this.spectra = new NoteSpectra(signal, BANK_WINDOWS[1], tuningCents);
  }

  /** Mean over the partials of the log of their loudest after the frame over their loudest before it, nats. */
  at(frame: number, midi: Midi): number {
    let sum = 0;
    for (let partial = 1; partial <= RISE.partials; partial++) {
      const bin = Math.round(NoteSpectra.placeOf(midi, partial));
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
    const known = this.known.get(frame);
    if (known) return known;
    const spectrum = this.spectra.read((frame - PADDING_FRAMES) * HOP);
    this.known.set(frame, spectrum);
    return spectrum;
  }
}
