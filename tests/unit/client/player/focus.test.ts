import { describe, expect, it } from "vitest";
import { bandRange } from "@/lib/client/player/BandFocus";
import { type ChannelGains, channelGains } from "@/lib/client/player/ChannelFocus";
import { CHANNEL_CHOICES } from "@/lib/document/records/ListeningSettings";

/** What both ears hear of a moment of a record. */
function heard(gains: ChannelGains, left: number, right: number): [left: number, right: number] {
  return [
    gains.leftToLeft * left + gains.rightToLeft * right,
    gains.leftToRight * left + gains.rightToRight * right,
  ];
}

describe("what of a record's channels is heard", () => {
  it("is both as they are, one in both ears, what they share, or what they differ by", () => {
    expect(heard(channelGains("all", 0), 0.5, -0.25)).toEqual([0.5, -0.25]);
    expect(heard(channelGains("left", 0), 0.5, -0.25)).toEqual([0.5, 0.5]);
    expect(heard(channelGains("right", 0), 0.5, -0.25)).toEqual([-0.25, -0.25]);
    // Mid and side: half the sum, half the difference.
    expect(heard(channelGains("middle", 0), 0.5, 0.25)).toEqual([0.375, 0.375]);
    expect(heard(channelGains("sides", 0), 0.5, 0.25)).toEqual([0.125, 0.125]);
  });

  it("leaves nothing of the middle in the sides, nor of what a balance brings into the middle", () => {
    expect(heard(channelGains("sides", 0), 0.6, 0.6)[0]).toBeCloseTo(0, 12);
    // A fifth louder on the left: the balance takes it to the middle.
    expect(heard(channelGains("sides", 0.2), 0.5, 0.4)[0]).toBeCloseTo(0, 12);
  });

  it("is never louder than full scale", () => {
    for (const channels of CHANNEL_CHOICES)
      for (let balance = -1; balance <= 1; balance += 0.25)
        for (const [left, right] of [
          [1, 1],
          [1, -1],
          [-1, 1],
        ] as const)
          for (const ear of heard(channelGains(channels, balance), left, right))
            expect(Math.abs(ear)).toBeLessThanOrEqual(1);
  });

  it("by the balance is one channel alone at its ends", () => {
    expect(heard(channelGains("all", -1), 0.5, 0.5)).toEqual([0.5, 0]);
    expect(heard(channelGains("all", 1), 0.5, 0.5)).toEqual([0, 0.5]);
  });
});

describe("the range that is heard", () => {
  const own = { lowHz: 300, highHz: 900 };

  it("is all of it, one of two, or one's own", () => {
    expect(bandRange("all", own, 0)).toBeNull();
    expect(bandRange("own", own, 0)).toEqual(own);
    expect(bandRange("bass", own, 0)!.highHz).toBeLessThan(bandRange("steel", own, 0)!.highHz);
  });

  it("moves with the record", () => {
    expect(bandRange("own", own, 1200)).toEqual({ lowHz: 600, highHz: 1800 });
  });
});
