import { standardise } from "@/lib/hearing/noteActivation";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { explained, type NoteDictionary, type NoteMixture } from "./NoteDictionary";
import { DICTIONARY, FRAMES, LONG, RISES, SILENCE, SILENT_UNDER } from "./parameters";

/** Spectra of a passage in long windows. */
export interface LongFrames {
  frames: readonly Float32Array[];
  hopSec: Seconds;
  /** Of each bin, from -1, all on the right, to 1, all on the left; null of a mono record. */
  balance: Float64Array | null;
}

const NOTES = DICTIONARY.highestMidi - DICTIONARY.lowestMidi + 1;

/** Sums of a note over the frames of a passage. */
export interface HeardNoteSums {
  mean: number;
  /** Mean over the frames in which it is strongest, FRAMES.bestSec long. */
  best: number;
  /** Share of the frames that it fills. */
  filled: number;
}

/** How a note begins. */
export interface Rise {
  /** Mean over the partials of the log of their loudest after the moment over their loudest before it, nats. */
  nats: number;
  /** The same of the first partial alone. */
  firstNats: number;
  /** The moment, in seconds from the start of the passage. */
  atSec: Seconds;
}

/** A passage as its notes are weighed: spectra, and how they add up from notes. */
export class PassageSpectra {
  /** Geometric mean over the frames, which keeps what lasts and drops strokes of drum and pick. */
  readonly lasting: Float64Array;
  /** The same, standardised. */
  readonly standing: Float64Array;
  /** One a frame: how much of each note of the dictionary. */
  private readonly activations: Float64Array[];
  private readonly whole: NoteMixture;
  private readonly wholeExplained: number;
  private readonly energy: number;
  /** Whether nothing at all is heard. */
  readonly isSilent: boolean;
  /** The loudest note by its mean. */
  readonly loudest: number;
  private readonly sums = new Map<Midi, HeardNoteSums>();
  private readonly rises = new Map<Midi, Rise>();

  constructor(
    private readonly dictionary: NoteDictionary,
    private readonly long: LongFrames,
    private readonly short: readonly Float32Array[],
  ) {
    const { frames } = long;
    const { binsPerSemitone } = LONG;
    this.activations = frames.map((frame) => {
      const mixture = dictionary.solve(standardise(Float64Array.from(frame), binsPerSemitone));
      return Float64Array.from({ length: NOTES }, (_, n) =>
        dictionary.activation(mixture, DICTIONARY.lowestMidi + n),
      );
    });
    this.lasting = new Float64Array(frames[0]!.length);
    for (const frame of frames)
      for (let k = 0; k < frame.length; k++)
        this.lasting[k]! += Math.log(frame[k]! + SILENCE) / frames.length;
    for (let k = 0; k < this.lasting.length; k++) this.lasting[k] = Math.exp(this.lasting[k]!);
    this.standing = standardise(this.lasting, binsPerSemitone);
    this.isSilent = this.lasting.every((amplitude) => amplitude < SILENT_UNDER);
    this.whole = dictionary.solve(this.standing);
    this.wholeExplained = explained(this.whole);
    this.energy = this.standing.reduce((sum, value) => sum + value * value, 1e-9);
    let loudest = 1e-3;
    for (let midi = DICTIONARY.lowestMidi; midi <= DICTIONARY.highestMidi; midi++)
      loudest = Math.max(loudest, this.heard(midi).mean);
    this.loudest = loudest;
  }

  /** A note over the frames, each solved for itself. */
  heard(midi: Midi): HeardNoteSums {
    const known = this.sums.get(midi);
    if (known) return known;
    const values = this.activations.map((notes) => notes[midi - DICTIONARY.lowestMidi] ?? 0);
    const count = values.length;
    const window = Math.max(1, Math.min(count, Math.round(FRAMES.bestSec / this.long.hopSec)));
    let best = 0;
    for (let i = 0; i + window <= count; i++) {
      let sum = 0;
      for (let j = i; j < i + window; j++) sum += values[j]!;
      best = Math.max(best, sum / window);
    }
    const found = {
      mean: values.reduce((sum, value) => sum + value, 0) / count,
      best,
      filled: values.filter((value) => value > FRAMES.filledFrom).length / count,
    };
    this.sums.set(midi, found);
    return found;
  }

  /** A note in what lasts over the passage. */
  lastingActivation(midi: Midi): number {
    return this.dictionary.activation(this.whole, midi);
  }

  /** How far it stands off the grid there, cents. */
  offCents(midi: Midi): number {
    return this.dictionary.offCents(this.whole, midi);
  }

  /** Share of the energy that no other notes can explain. */
  needed(midi: Midi): number {
    if (this.lastingActivation(midi) === 0) return 0;
    const without = this.dictionary.solveWithout(this.whole, midi);
    return (this.wholeExplained - explained(without)) / this.energy;
  }

  /** From -1 (right) to 1 (left): where the partials of a note come from; null of a mono record. */
  balance(midi: Midi, partials = 6): number | null {
    const { balance } = this.long;
    if (!balance) return null;
    let [sum, weights] = [0, 1e-6];
    for (let partial = 1; partial <= partials; partial++) {
      const bin = Math.round(binOf(midi, partial));
      if (bin < 0 || bin >= balance.length) continue;
      const weight = this.standing[bin]!;
      sum += weight * balance[bin]!;
      weights += weight;
    }
    return sum / weights;
  }

  /** Where about the start of the passage the partials of a note rise most. */
  rise(midi: Midi): Rise {
    let rise = this.rises.get(midi);
    if (!rise) {
      rise = this.steepest(midi);
      this.rises.set(midi, rise);
    }
    return rise;
  }

  private steepest(midi: Midi): Rise {
    const place = (sec: Seconds) => Math.round(((RISES.beforeSec + sec) * HEARING_RATE_HZ) / RISES.hop);
    const bins = Array.from({ length: RISES.partials }, (_, k) => binOf(midi, k + 1));
    const loud = bins.map((bin) => this.short.map((frame) => loudestNear(frame, bin)));
    let found: Rise = { nats: Number.NEGATIVE_INFINITY, firstNats: 0, atSec: 0 };
    for (let t = place(RISES.earliestSec); t <= place(RISES.latestSec); t++) {
      const each = loud.map((track) => {
        const after = most(track, t + RISES.after[0], t + RISES.after[1]);
        const before = most(track, t - RISES.before[1], t - RISES.before[0]);
        return Math.log((after + RISES.floor) / (before + RISES.floor));
      });
      const nats = each.reduce((sum, value) => sum + value, 0) / each.length;
      if (nats > found.nats)
        found = { nats, firstNats: each[0]!, atSec: (t * RISES.hop) / HEARING_RATE_HZ - RISES.beforeSec };
    }
    return found;
  }
}

/** Place among the bins of a multiple, fractional or not, of a pitch's frequency. */
export function binOf(midi: Midi, multiple: number): number {
  const { binsPerSemitone, lowestMidi } = LONG;
  return binsPerSemitone * (midi - lowestMidi + 12 * Math.log2(multiple)) + (binsPerSemitone - 1) / 2;
}

/** Loudest within some bins of a place. */
export function loudestNear(spectrum: ArrayLike<number>, place: number, reach = 1.3): number {
  let loudest = 0;
  const last = Math.min(spectrum.length - 1, Math.floor(place + reach));
  for (let k = Math.max(0, Math.ceil(place - reach)); k <= last; k++)
    loudest = Math.max(loudest, spectrum[k]!);
  return loudest;
}

function most(track: readonly number[], from: number, to: number): number {
  let loudest = 0;
  for (let t = Math.max(0, from); t <= Math.min(track.length - 1, to); t++)
    loudest = Math.max(loudest, track[t]!);
  return loudest;
}
