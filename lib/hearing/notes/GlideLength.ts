import type { Signal } from "@/lib/dsp/Signal";
import type { Cents, Midi, Seconds } from "@/lib/units/quantities";
import { BANK_WINDOWS, BINS } from "../learned/layout";
import { NoteSpectra } from "./NoteSpectra";
import { GLIDE_LENGTH } from "./parameters";

/**
 * How long a glide takes: of paths between the two pitches, each half a cosine of another length about the same
 * moment, the one along which the partials are strongest. A matched path in the spirit of the ridge tracking of
 * R. McAulay and T. Quatieri ("Speech analysis/synthesis based on a sinusoidal representation", 1986), over a
 * log-frequency spectrum: upper partials tell pitch finely in windows that are short against the glide.
 */
export class GlideLength {
  private readonly signal: Signal;
  private readonly spectra: NoteSpectra;
  private readonly spectrum = new Float32Array(BINS);

  /** @param signal at the ear's rate and level */
  constructor(signal: Signal, tuningCents: Cents) {
    this.signal = signal;
    this.spectra = new NoteSpectra(signal, BANK_WINDOWS[0], tuningCents);
  }

  of(fromMidi: Midi, toMidi: Midi, atSec: Seconds): Seconds {
    const { stepSec, reachSec, lengthsSec } = GLIDE_LENGTH;
    const scores = lengthsSec.map(() => 0);
    for (let since = -reachSec; since <= reachSec; since += stepSec) {
      this.spectra.read(Math.round((atSec + since) * this.signal.sampleRateHz), this.spectrum);
      lengthsSec.forEach((lengthSec, i) => {
        const way = Math.min(1, Math.max(0, 0.5 + since / lengthSec));
        scores[i]! += this.salience(fromMidi + (toMidi - fromMidi) * (0.5 - 0.5 * Math.cos(Math.PI * way)));
      });
    }
    return lengthsSec[scores.indexOf(Math.max(...scores))]!;
  }

  /** Mean log amplitude of the partials of a pitch. */
  private salience(midi: Midi): number {
    let sum = 0;
    for (const partial of GLIDE_LENGTH.partials) {
      const place = NoteSpectra.placeOf(midi, partial);
      const bin = Math.floor(place);
      const share = place - bin;
      const low = this.spectrum[bin] ?? 0;
      const high = this.spectrum[bin + 1] ?? 0;
      sum += Math.log(low + share * (high - low) + GLIDE_LENGTH.floor);
    }
    return sum;
  }
}
