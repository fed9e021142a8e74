import { NamedGains } from "./NamedGains";

/** What one listens to: the record alone, the record left and the parts right, or the parts alone. */
export const LISTENS = ["record", "both", "parts"] as const;
export type Listen = (typeof LISTENS)[number];

/** A pair of strings at this level is about as loud as a record (local choice, no source). */
const PARTS_GAIN = 0.28;
const BAND_GAIN = 0.32;
const LEFT = 0;
const RIGHT = 1;

/** What each way to the ears lets through, 0 to 1. */
export interface MixGains {
  /** The record as it is. */
  record: number;
  /** The record, both channels as one, on the left alone. */
  recordLeft: number;
  /** The parts in the middle. */
  parts: number;
  /** The parts on the right alone. */
  partsRight: number;
}

/**
 * The gains for what one listens to. Two ears tell two sources apart where one ear cannot, so that with both, each has an
 * ear of its own.
 * @param balance -1 the record alone, 0 both whole, 1 the parts alone; it weighs only where both are heard
 */
export function mixGains(listen: Listen, balance: number): MixGains {
  const silent: MixGains = { record: 0, recordLeft: 0, parts: 0, partsRight: 0 };
  if (listen === "record") return { ...silent, record: 1 };
  if (listen === "parts") return { ...silent, parts: 1 };
  return { ...silent, recordLeft: Math.min(1, 1 - balance), partsRight: Math.min(1, 1 + balance) };
}

/** The gains where the record is heard alone, or beside something that does not pass through here. */
export function recordGains(record: "whole" | "left" | "silent"): MixGains {
  return {
    record: record === "whole" ? 1 : 0,
    recordLeft: record === "left" ? 1 : 0,
    parts: 0,
    partsRight: 0,
  };
}

/** Brings record, parts and band together before level and ceiling. */
export class ListenMix {
  /** Where the record goes in. */
  readonly record: AudioNode;
  /** Where the parts go in, mono. */
  readonly parts: AudioNode;
  /** Where bass, chords and drone go in; they are in the middle whatever one listens to. */
  readonly band: AudioNode;
  private readonly gains: NamedGains<keyof MixGains>;

  constructor(context: BaseAudioContext, to: AudioNode) {
    this.gains = new NamedGains(context, mixGains("record", 0));
    const { record, recordLeft, parts, partsRight } = this.gains.nodes;
    this.record = new GainNode(context);
    this.parts = new GainNode(context, { gain: PARTS_GAIN });
    this.band = new GainNode(context, { gain: BAND_GAIN });
    const apart = new ChannelMergerNode(context, { numberOfInputs: 2 });
    const asOne = new GainNode(context, { channelCount: 1, channelCountMode: "explicit" });
    this.record.connect(record).connect(to);
    this.record.connect(asOne).connect(recordLeft).connect(apart, 0, LEFT);
    this.parts.connect(parts).connect(to);
    this.parts.connect(partsRight).connect(apart, 0, RIGHT);
    apart.connect(to);
    this.band.connect(to);
  }

  set(gains: MixGains): void {
    this.gains.fadeTo(gains);
  }
}
