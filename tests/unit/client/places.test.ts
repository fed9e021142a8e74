import { describe, expect, it } from "vitest";
import { easeOf, placesToShow, rankAround } from "@/lib/client/song/rankAround";
import { WantedPitchError, wantedPitches } from "@/lib/client/song/wantedPitches";
import { E9 } from "@/lib/instrument/copedents/e9";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";

describe("notes named on the bench", () => {
  it("reads scientific pitch (C4 = 60, A4 = 69), commas and small letters too", () => {
    expect(wantedPitches("B4 G4")).toEqual([71, 67]);
    expect(wantedPitches("f#4, eb5")).toEqual([66, 75]);
    expect(wantedPitches("  ")).toEqual([]);
  });

  it.each(["B", "H4", "C4 E4 G4 C5"])("says what is wrong with %s", (text) => {
    expect(() => wantedPitches(text)).toThrow(WantedPitchError);
  });
});

describe("where they lie", () => {
  const at = { timeSec: 1, key: { tonic: "G", mode: "major" } as const, part: [], changes: [], event: null };
  const ranked = rankAround(E9, [71, 67], at);

  it("sounds the notes at every place", () => {
    expect(ranked.length).toBeGreaterThan(3);
    for (const place of ranked) {
      const sounding = place.strings.map((string) => effectiveMidi(E9, string, place.fret, place.changes));
      expect([...sounding].sort()).toEqual([67, 71]);
    }
  });

  it("shows the ones that stand out first, and rates the easiest 100", () => {
    const shown = placesToShow(ranked, 6);
    expect(shown).toHaveLength(6);
    expect(shown[0]?.standsOut).toBe(true);
    const ease = ranked.map((place) => easeOf(place, ranked[0]!));
    expect(ease[0]).toBe(100);
    expect([...ease].sort((a, b) => b - a)).toEqual(ease);
    expect(ease.at(-1)).toBeLessThan(100);
  });
});
