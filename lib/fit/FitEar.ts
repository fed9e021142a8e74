import { type LogFrequencyScale, LogFrequencyTransform } from "@/lib/dsp/logFrequency";
import type { ReadableSignal } from "@/lib/dsp/ReadableSignal";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import type { Cents } from "@/lib/units/quantities";
import type { FitSound } from "./FitSound";
import { NoteDictionary } from "./NoteDictionary";
import { type LongFrames, PassageSpectra } from "./PassageSpectra";
import { FRAMES, LONG, RISES, SHORT } from "./parameters";

/** A passage shorter than this says nothing. */
export const SHORTEST_SEC = 0.05;

/** @throws RangeError for a passage that is too short */
export function checkLength({ startSec, endSec }: HeardStretch): void {
  if (!(endSec - startSec >= SHORTEST_SEC))
    throw new RangeError(
      `A passage must last ${SHORTEST_SEC} s at least, not from ${startSec} to ${endSec} s.`,
    );
}

/** What passages of one record are looked at with: made once, since that takes longer than a look. */
export class FitEar {
  private readonly long: LogFrequencyTransform;
  private readonly short: LogFrequencyTransform;
  private readonly dictionary: NoteDictionary;
  private readonly scale: LogFrequencyScale;

  /** @param tuningCents how far the record stands from A4 = 440 Hz */
  constructor(readonly tuningCents: Cents) {
    this.scale = { ...LONG, sampleRateHz: HEARING_RATE_HZ, tuningCents };
    this.long = new LogFrequencyTransform(this.scale);
    this.short = new LogFrequencyTransform({ ...SHORT, sampleRateHz: HEARING_RATE_HZ, tuningCents });
    this.dictionary = new NoteDictionary(this.scale);
  }

  /**
   * What is seen of a passage.
   * @param passage in seconds of the sound given
   * @throws RangeError for a passage that is too short, or a sound at another rate
   */
  look({ signal, side }: FitSound, passage: HeardStretch): PassageSpectra {
    checkLength(passage);
    const { startSec, endSec } = passage;
    if (signal.sampleRateHz !== HEARING_RATE_HZ)
      throw new RangeError(
        `Guesses are held against sound at ${HEARING_RATE_HZ} Hz, not ${signal.sampleRateHz}.`,
      );
    const first = startSec + FRAMES.afterStartSec;
    const roomSec = Math.max(0, endSec - FRAMES.beforeEndSec - first);
    const hopSec = Math.max(FRAMES.hop / HEARING_RATE_HZ, roomSec / (FRAMES.most - 1));
    const count = Math.max(2, Math.floor(roomSec / hopSec + 1e-9) + 1);
    const spareSec = Math.max(0, roomSec - (count - 1) * hopSec);
    const times = Array.from({ length: count }, (_, i) => first + spareSec / 2 + i * hopSec);
    const riseCount = Math.round((RISES.lengthSec * HEARING_RATE_HZ) / RISES.hop);
    const risesFrom = Math.round((startSec - RISES.beforeSec) * HEARING_RATE_HZ);
    const starts = Array.from({ length: riseCount }, (_, i) => risesFrom + i * RISES.hop);
    return new PassageSpectra(
      this.dictionary,
      this.longFrames(signal, side, times, hopSec),
      starts.map((sample) => this.shortFrame(signal, sample)),
    );
  }

  private longFrames(
    signal: ReadableSignal,
    side: ReadableSignal | null,
    times: readonly number[],
    hopSec: number,
  ): LongFrames {
    const { long } = this;
    const { memory, width } = long;
    const size = LONG.longestWindow;
    this.blocks ??= {
      mid: memory.take(size),
      side: memory.take(size),
      spectra: { mid: memory.take(width), side: memory.take(width), balance: memory.take(width) },
    };
    const { blocks } = this;
    const frames: Float32Array[] = [];
    const balance = side ? new Float64Array(width) : null;
    const weight = new Float64Array(width);
    for (const timeSec of times) {
      const sample = Math.round(timeSec * HEARING_RATE_HZ) - size / 2;
      signal.read(sample, memory.floats.subarray(blocks.mid / 4, blocks.mid / 4 + size));
      if (side) {
        side.read(sample, memory.floats.subarray(blocks.side / 4, blocks.side / 4 + size));
        long.transformStereoAt(blocks.mid, blocks.side, blocks.spectra);
      } else long.transformAt(blocks.mid, blocks.spectra.mid);
      const { mid, balance: at } = blocks.spectra;
      const frame = memory.floats.slice(mid / 4, mid / 4 + width);
      frames.push(frame);
      if (!balance) continue;
      for (let k = 0; k < width; k++) {
        balance[k]! += frame[k]! * memory.floats[at / 4 + k]!;
        weight[k]! += frame[k]!;
      }
    }
    if (balance) for (let k = 0; k < width; k++) balance[k]! /= weight[k]! + 1e-9;
    return { frames, hopSec, balance };
  }

  private blocks: {
    mid: number;
    side: number;
    spectra: { mid: number; side: number; balance: number };
  } | null = null;

  private shortFrame(signal: ReadableSignal, sample: number): Float32Array {
    const frame = signal.read(sample - SHORT.longestWindow / 2, this.shortSamples);
    const spectrum = new Float32Array(this.short.width);
    this.short.transform(frame, spectrum);
    return spectrum;
  }

  private readonly shortSamples = new Float32Array(SHORT.longestWindow);
}
