import { LogFrequencyTransform } from "@/lib/dsp/logFrequency";
import type { Signal } from "@/lib/dsp/Signal";
import type { Cents, Midi, Seconds } from "@/lib/units/quantities";
import { BANK_WINDOWS, BINS, BINS_PER_SEMITONE, LOWEST_MIDI, SEMITONES } from "../learned/layout";
import { GLIDE_LENGTH } from "./parameters";

/**
 * How long a glide takes: of paths between the two pitches, each half a cosine of another length about the same
 * moment, the one along which the partials are strongest. A matched path in the spirit of the ridge tracking of
 * R. McAulay and T. Quatieri ("Speech analysis/synthesis based on a sinusoidal representation", 1986), over a
 * log-frequency spectrum: upper partials tell pitch finely in windows that are short against the glide.
 */
export class GlideLength {
  private readonly transform: LogFrequencyTransform;
  private readonly signal: Signal;
  private readonly frame: Float32Array;
  private readonly spectrum = new Float32Array(BINS);

  /** @param signal at the ear's rate and level */
  constructor(signal: Signal, tuningCents: Cents) {
    const { cycles, most } = BANK_WINDOWS[0];
    this.signal = signal;
    this.frame = new Float32Array(most);
    this.transform = new LogFrequencyTransform({
      sampleRateHz: signal.sampleRateHz,
      lowestMidi: LOWEST_MIDI,
      semitones: SEMITONES,
      binsPerSemitone: BINS_PER_SEMITONE,
      periods: cycles,
      shortestWindow: GLIDE_LENGTH.shortestWindow,
      longestWindow: most,
      tuningCents,
    });
  }

  of(fromMidi: Midi, toMidi: Midi, atSec: Seconds): Seconds {
    const { stepSec, reachSec, lengthsSec } = GLIDE_LENGTH;
    const scores = lengthsSec.map(() => 0);
    for (let since = -reachSec; since <= reachSec; since += stepSec) {
      this.signal.read(
        Math.round((atSec + since) * this.signal.sampleRateHz) - this.frame.length / 2,
        this.frame,
      );
      this.transform.transform(this.frame, this.spectrum);
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
      const place = BINS_PER_SEMITONE * (midi - LOWEST_MIDI + 12 * Math.log2(partial)) + 1;
      const bin = Math.floor(place);
      const share = place - bin;
      const low = this.spectrum[bin] ?? 0;
      const high = this.spectrum[bin + 1] ?? 0;
      sum += Math.log(low + share * (high - low) + GLIDE_LENGTH.floor);
    }
    return sum;
  }
}
