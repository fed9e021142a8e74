/** What one listens to: the record alone, the record left and the steel right, or the steel alone. */
export const LISTENS = ["record", "both", "steel"] as const;
export type Listen = (typeof LISTENS)[number];

/** How fast the mix changes. */
const FADE_SEC = 0.015;
/** A pair of strings at this level is about as loud as a record (measured by ear, no source). */
const STEEL_GAIN = 0.28;
const BAND_GAIN = 0.32;
const LEFT = 0;
const RIGHT = 1;

/** What each way to the ears lets through, 0 to 1. */
export interface MixGains {
  /** The record as it is. */
  record: number;
  /** The record, both channels as one, on the left alone. */
  recordLeft: number;
  /** The steel in the middle. */
  steel: number;
  /** The steel on the right alone. */
  steelRight: number;
}

/**
 * The gains for what one listens to. Two ears tell two sources apart where one ear cannot, so that with both, each has an
 * ear of its own.
 * @param balance -1 the record alone, 0 both whole, 1 the steel alone; it weighs only where both are heard
 */
export function mixGains(listen: Listen, balance: number): MixGains {
  const silent: MixGains = { record: 0, recordLeft: 0, steel: 0, steelRight: 0 };
  if (listen === "record") return { ...silent, record: 1 };
  if (listen === "steel") return { ...silent, steel: 1 };
  return { ...silent, recordLeft: Math.min(1, 1 - balance), steelRight: Math.min(1, 1 + balance) };
}

/** Brings record, steel and band together before level and ceiling. */
export class ListenMix {
  /** Where the record goes in. */
  readonly record: AudioNode;
  /** Where the steel goes in, mono. */
  readonly steel: AudioNode;
  /** Where bass, chords and drone go in; they are in the middle whatever one listens to. */
  readonly band: AudioNode;
  private readonly gains: Readonly<Record<keyof MixGains, GainNode>>;

  constructor(
    private readonly context: BaseAudioContext,
    to: AudioNode,
  ) {
    const gain = (value: number) => new GainNode(context, { gain: value });
    this.gains = { record: gain(1), recordLeft: gain(0), steel: gain(0), steelRight: gain(0) };
    this.record = gain(1);
    this.steel = gain(STEEL_GAIN);
    this.band = gain(BAND_GAIN);
    const apart = new ChannelMergerNode(context, { numberOfInputs: 2 });
    const asOne = new GainNode(context, { channelCount: 1, channelCountMode: "explicit" });
    this.record.connect(this.gains.record).connect(to);
    this.record.connect(asOne).connect(this.gains.recordLeft).connect(apart, 0, LEFT);
    this.steel.connect(this.gains.steel).connect(to);
    this.steel.connect(this.gains.steelRight).connect(apart, 0, RIGHT);
    apart.connect(to);
    this.band.connect(to);
  }

  set(gains: MixGains): void {
    for (const name of Object.keys(this.gains) as (keyof MixGains)[])
      this.gains[name].gain.setTargetAtTime(gains[name], this.context.currentTime, FADE_SEC);
  }
}
