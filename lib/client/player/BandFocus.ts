import type { BandChoice, HertzRange } from "@/lib/document/records/ListeningSettings";
import type { Cents } from "@/lib/units/quantities";
import { FADE_SEC, NamedGains } from "./NamedGains";

/** A second-order filter without a hump, falling by 12 dB an octave (Butterworth; the Web Audio API takes its Q in dB). */
const NO_HUMP_DB = 20 * Math.log10(Math.SQRT1_2);

/** Where most of what one listens for lies (local choices: a steel from its lower strings to the fourth or fifth partial of its upper ones, a bass with its octave). */
const RANGES: Readonly<Record<"steel" | "bass", HertzRange>> = {
  steel: { lowHz: 160, highHz: 4000 },
  bass: { lowHz: 35, highHz: 250 },
};

/** The range that is let through; null for all. It moves with the record where that is moved. */
export function bandRange(band: BandChoice, ownBand: HertzRange, shiftCents: Cents): HertzRange | null {
  if (band === "all") return null;
  const { lowHz, highHz } = band === "own" ? ownBand : RANGES[band];
  const ratio = 2 ** (shiftCents / 1200);
  return { lowHz: lowHz * ratio, highHz: highHz * ratio };
}

/** Stands between two nodes and lets everything through as it is, or a range by gentle filters. */
export class BandFocus {
  /** Where the record goes in. */
  readonly entry: GainNode;
  private readonly gains: NamedGains<"all" | "some">;
  private readonly low: BiquadFilterNode;
  private readonly high: BiquadFilterNode;

  constructor(
    private readonly context: BaseAudioContext,
    to: AudioNode,
  ) {
    this.entry = new GainNode(context);
    this.gains = new NamedGains(context, { all: 1, some: 0 });
    const { all, some } = this.gains.nodes;
    this.low = new BiquadFilterNode(context, { type: "highpass", Q: NO_HUMP_DB });
    this.high = new BiquadFilterNode(context, { type: "lowpass", Q: NO_HUMP_DB });
    this.entry.connect(all).connect(to);
    this.entry.connect(this.low).connect(this.high).connect(some).connect(to);
  }

  /** @param range what is let through; null for all, as it is */
  set(range: HertzRange | null): void {
    const { currentTime, sampleRate } = this.context;
    this.gains.fadeTo(range ? { all: 0, some: 1 } : { all: 1, some: 0 });
    if (!range) return;
    this.low.frequency.setTargetAtTime(range.lowHz, currentTime, FADE_SEC);
    this.high.frequency.setTargetAtTime(Math.min(range.highHz, sampleRate / 2), currentTime, FADE_SEC);
  }
}
