import { describe, expect, it } from "vitest";
import { makeSongGrid } from "@/lib/client/axis/songGrid";
import { otherBarsWords, tapWords } from "@/lib/client/beats/gridWords";
import { heardTime } from "@/lib/client/beats/heardTime";
import { TapSession } from "@/lib/client/beats/TapSession";
import { fitTaps } from "@/lib/notation/taps/fitTaps";

describe("taps along with the record", () => {
  it("become beats once there are four, and are taken back one by one or dropped", () => {
    const session = new TapSession();
    for (let beat = 0; beat < 4; beat += 1) session.tap({ timeSec: 1 + beat * 0.5, isDownbeat: beat === 0 });
    expect(session.now().fitted).toMatchObject({ isSteady: true, downbeats: [0] });
    session.takeBack();
    expect(session.now().fitted).toBeNull();
    expect(session.now().taps).toHaveLength(3);
    expect(session.drop()).toBe(true);
    expect(session.isOpen).toBe(false);
    expect(session.drop()).toBe(false);
  });

  it("stand where the record was heard when the key went down", () => {
    const sent = { speed: 1, isAsHeard: false };
    expect(heardTime({ ...sent, timeSec: 10, speed: 0.5, outputSec: 0.04 }, 20)).toBeCloseTo(9.97);
    expect(heardTime({ ...sent, timeSec: 0.01, outputSec: 0.1 }, 0)).toBe(0);
    // A record in memory tells where it is heard; its way to the ears is counted already.
    expect(heardTime({ ...sent, timeSec: 10, isAsHeard: true, outputSec: 0.04 }, 20)).toBeCloseTo(9.98);
    // A clock that makes no sense moves no tap far.
    expect(heardTime({ ...sent, timeSec: 10, outputSec: 0 }, 1e9)).toBeCloseTo(9.5);
  });

  it("are told in a sentence", () => {
    expect(tapWords(1, null)).toBe("1 tap. Tap four beats or more.");
    const even = Array.from({ length: 8 }, (_, beat) => ({ timeSec: beat * 0.625, isDownbeat: false }));
    expect(tapWords(8, fitTaps(even))).toBe("8 beats, 96 beats a minute, steady: your taps lie within 0 ms.");
    const slowing = Array.from({ length: 24 }, (_, beat) => ({
      timeSec: beat * 0.5 + 0.005 * beat * beat,
      isDownbeat: false,
    }));
    expect(tapWords(24, fitTaps(slowing))).toMatch(
      /^24 beats, .* and the tempo breathes: from 8\d.* to 11\d/,
    );
  });
});

describe("bars of another length", () => {
  const grid = (...lengths: number[]) => {
    const inBar = lengths.flatMap((length) => Array.from({ length }, (_, beat) => beat + 1));
    return makeSongGrid({ beatsSec: inBar.map((_, beat) => beat / 2), inBar, beatsPerBar: 4 }, 1)!;
  };

  it("are told with where they are", () => {
    expect(otherBarsWords(grid(4, 4, 4))).toBe("");
    expect(otherBarsWords(grid(4, 2, 4, 4, 3, 3, 3))).toBe("2 beats in bar 2, 3 beats from bar 5 to 7.");
  });
});
