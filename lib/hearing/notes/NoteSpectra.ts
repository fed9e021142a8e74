import { LogFrequencyTransform } from "@/lib/dsp/logFrequency";
import type { Signal } from "@/lib/dsp/Signal";
import type { Cents, Midi } from "@/lib/units/quantities";
import { type BANK_WINDOWS, BINS, BINS_PER_SEMITONE, LOWEST_MIDI, SEMITONES } from "../learned/layout";

/** Log-frequency spectra of a record at any moment, in tune with it, on the bins of the learned ear. */
export class NoteSpectra {
  private readonly signal: Signal;
  private readonly transform: LogFrequencyTransform;
  private readonly frame: Float32Array;

  /**
   * @param signal at the ear's rate and level
   * @param windows lengths of the windows, those of one of the ear's banks
   */
  constructor(signal: Signal, windows: (typeof BANK_WINDOWS)[number], tuningCents: Cents) {
    const { cycles, fewest, most } = windows;
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

  /** Writes the magnitudes about a sample of the record. */
  read(sample: number, into = new Float32Array(BINS)): Float32Array {
    this.signal.read(sample - this.frame.length / 2, this.frame);
    this.transform.transform(this.frame, into);
    return into;
  }

  /** Place among the bins, between two of them, of a partial of a pitch; the first partial is the pitch itself. */
  static placeOf(midi: Midi, partial: number): number {
    return BINS_PER_SEMITONE * (midi - LOWEST_MIDI + 12 * Math.log2(partial)) + 1;
  }
}
