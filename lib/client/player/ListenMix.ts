import { NamedGains } from "./NamedGains";

/** What one listens to: the record alone, the record left and the steel right, or the steel alone. */
export const LISTENS = ["record", "both", "steel"] as const;
export type Listen = (typeof LISTENS)[number];

/** A pair of strings at this level is about as loud as a record (local choice, no source). */
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
  private readonly gains: NamedGains<keyof MixGains>;

  constructor(context: BaseAudioContext, to: AudioNode) {
    this.gains = new NamedGains(context, mixGains("record", 0));
    const { record, recordLeft, steel, steelRight } = this.gains.nodes;
    this.record = new GainNode(context);
    this.steel = new GainNode(context, { gain: STEEL_GAIN });
    this.band = new GainNode(context, { gain: BAND_GAIN });
    const apart = new ChannelMergerNode(context, { numberOfInputs: 2 });
    const asOne = new GainNode(context, { channelCount: 1, channelCountMode: "explicit" });
    this.record.connect(record).connect(to);
    this.record.connect(asOne).connect(recordLeft).connect(apart, 0, LEFT);
    this.steel.connect(steel).connect(to);
    this.steel.connect(steelRight).connect(apart, 0, RIGHT);
    apart.connect(to);
    this.band.connect(to);
  }

  set(gains: MixGains): void {
    this.gains.fadeTo(gains);
  }
}
