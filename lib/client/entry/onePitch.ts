import { rms } from "@/lib/dsp/rms";
import { toneAmplitudes } from "@/lib/dsp/toneAmplitudes";
import { Yin } from "@/lib/dsp/Yin";
import { hertzToMidi } from "@/lib/units/pitch";
import type { Hertz, Midi } from "@/lib/units/quantities";

/** What a moment of sound is: nothing to speak of, one note, or something else (two notes, noise, a scrape). */
export type Moment = { kind: "silence" } | { kind: "note"; midi: Midi } | { kind: "unclear" };

/** Quieter frames, as root mean square, are silence: about -50 dB below full scale. */
const SILENT_RMS = 0.003;
/** Frames that repeat themselves less well hold no one note; a string's stiffness and a room take some of it. */
const MOST_APERIODIC = 0.12;
/**
 * Two notes have a period in common, an octave or more below both, at which nothing sounds. A string sounds at its own;
 * a small microphone takes perhaps a tenth of it away in the lowest octave.
 */
const LEAST_FUNDAMENTAL = 0.02;
const PARTIALS = 10;
/** Pitches that strings are tuned and stopped to: from the five-string bass's lowest, B0, up to fret 24 of a steel. */
const RANGE = { lowestHz: 30, highestHz: 2000 };

/** Tells which note sounds in frames of about a tenth of a second. */
export class OnePitch {
  /** Samples of a frame, a power of two that holds two periods of the lowest note, as a browser's analyser takes them. */
  readonly frameLength: number;
  private readonly yin: Yin;

  constructor(private readonly sampleRateHz: Hertz) {
    this.frameLength = 2 ** Math.ceil(Math.log2((2.5 * sampleRateHz) / RANGE.lowestHz));
    this.yin = new Yin(this.frameLength, sampleRateHz, RANGE);
  }

  /** @param frame as the microphone gives it, full scale ±1 */
  hear(frame: Float32Array): Moment {
    if (rms(frame) < SILENT_RMS) return { kind: "silence" };
    const found = this.yin.find(frame);
    if (!found || found.aperiodicity > MOST_APERIODIC) return { kind: "unclear" };
    const partialsHz = Array.from({ length: PARTIALS }, (_, at) => (at + 1) * found.frequencyHz);
    const amplitudes = toneAmplitudes(frame, this.sampleRateHz, partialsHz);
    if (amplitudes[0]! < LEAST_FUNDAMENTAL * Math.max(...amplitudes)) return { kind: "unclear" };
    return { kind: "note", midi: hertzToMidi(found.frequencyHz) };
  }
}
