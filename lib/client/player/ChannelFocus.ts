import type { ChannelChoice } from "@/lib/document/records/ListeningSettings";
import { NamedGains } from "./NamedGains";

const LEFT = 0;
const RIGHT = 1;

/** How much of each channel of a record goes to each ear. */
export interface ChannelGains {
  leftToLeft: number;
  leftToRight: number;
  rightToLeft: number;
  rightToRight: number;
}

/**
 * The gains for what of a record's channels is heard. What channels share is half their sum, what they differ by half their
 * difference (mid and side): so what stands in the middle goes out of the sides altogether, and nothing is louder than full
 * scale. The balance weighs the channels before, so that what stands a little beside the middle can be taken out too.
 * @param balance -1 the left channel alone, 0 both whole, 1 the right one alone
 */
export function channelGains(channels: ChannelChoice, balance: number): ChannelGains {
  const left = Math.min(1, 1 - balance);
  const right = Math.min(1, 1 + balance);
  const inBoth = (ofLeft: number, ofRight: number): ChannelGains => ({
    ...{ leftToLeft: ofLeft, leftToRight: ofLeft, rightToLeft: ofRight, rightToRight: ofRight },
  });
  switch (channels) {
    case "left":
      return inBoth(1, 0);
    case "right":
      return inBoth(0, 1);
    case "middle":
      return inBoth(left / 2, right / 2);
    case "sides":
      return inBoth(left / 2, -right / 2);
    default:
      return { leftToLeft: left, leftToRight: 0, rightToLeft: 0, rightToRight: right };
  }
}

/** Stands between two nodes and lets through what is wanted of two channels; a mono record counts as two that are alike. */
export class ChannelFocus {
  /** Where the record goes in. */
  readonly entry: GainNode;
  private readonly gains: NamedGains<keyof ChannelGains>;

  constructor(context: BaseAudioContext, to: AudioNode) {
    this.entry = new GainNode(context, { channelCount: 2, channelCountMode: "explicit" });
    this.gains = new NamedGains(context, channelGains("all", 0));
    const { leftToLeft, leftToRight, rightToLeft, rightToRight } = this.gains.nodes;
    const apart = new ChannelSplitterNode(context, { numberOfOutputs: 2 });
    const together = new ChannelMergerNode(context, { numberOfInputs: 2 });
    this.entry.connect(apart);
    apart.connect(leftToLeft, LEFT).connect(together, 0, LEFT);
    apart.connect(leftToRight, LEFT).connect(together, 0, RIGHT);
    apart.connect(rightToLeft, RIGHT).connect(together, 0, LEFT);
    apart.connect(rightToRight, RIGHT).connect(together, 0, RIGHT);
    together.connect(to);
  }

  set(channels: ChannelChoice, balance: number): void {
    this.gains.fadeTo(channelGains(channels, balance));
  }
}
