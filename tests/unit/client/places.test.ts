import { describe, expect, it } from "vitest";
import { pitchNear } from "@/lib/client/song/pitchNear";
import { easeOf } from "@/lib/client/song/placeEase";
import { placesToShow, rankAround } from "@/lib/client/song/rankAround";
import { WantedPitchError, wantedPitches } from "@/lib/client/song/wantedPitches";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { E9 } from "@/lib/instrument/copedents/e9";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";

describe("notes named on the bench", () => {
  const inG = { key: { tonic: "G", mode: "major" } as const, near: 66 };

  it("reads scientific pitch (C4 = 60, A4 = 69), commas and small letters too", () => {
    expect(wantedPitches("B4 G4", inG)).toEqual([71, 67]);
    expect(wantedPitches("f#4, eb5", inG)).toEqual([66, 75]);
    expect(wantedPitches("E♭5 F♯4", inG)).toEqual([75, 66]);
    expect(wantedPitches("  ", inG)).toEqual([]);
  });

  it("reads numbers of home: the first nearest to where the part is, the others going up from it", () => {
    expect(wantedPitches("3 5", inG)).toEqual([71, 74]);
    expect(wantedPitches("1", inG)).toEqual([67]);
    expect(wantedPitches("1", { ...inG, near: 57 })).toEqual([55]);
    expect(wantedPitches("5 1 3", inG)).toEqual([62, 67, 71]);
    expect(wantedPitches("3 3", inG)).toEqual([71, 83]);
    expect(wantedPitches("3 5", { key: { tonic: "Eb", mode: "major" }, near: 66 })).toEqual([67, 70]);
  });

  it("moves numbers by octaves, and what follows goes up from there", () => {
    expect(wantedPitches("3' 5", inG)).toEqual([83, 86]);
    expect(wantedPitches("3. 5", inG)).toEqual([59, 62]);
    expect(wantedPitches("1.. 5''", inG)).toEqual([43, 74]);
  });

  it("counts numbers along the major scale, in minor keys too (spellPitchClass), a small b before a digit being a flat", () => {
    expect(wantedPitches("b7 #4", inG)).toEqual([65, 73]);
    expect(wantedPitches("b3", { ...inG, key: { tonic: "A", mode: "minor" } })).toEqual([60]);
    expect(wantedPitches("b7", inG)).not.toEqual(wantedPitches("B7", inG));
    expect(wantedPitches("B7", inG)).toEqual([107]);
  });

  it("reads names without an octave as it reads numbers", () => {
    expect(wantedPitches("G B", inG)).toEqual([67, 71]);
    expect(wantedPitches("B G4", inG)).toEqual([71, 67]);
    expect(wantedPitches("B4 D", inG)).toEqual([71, 74]);
  });

  it.each(["H4", "8", "3'.", "B4'", "C4 E4 G4 C5"])("says what is wrong with %s", (text) => {
    expect(() => wantedPitches(text, inG)).toThrow(WantedPitchError);
  });
});

describe("where notes without an octave are meant", () => {
  const event = (startSec: number, fret: number): ShownPart => ({
    ...{ id: `at ${startSec}`, startSec, endSec: startSec + 0.5, strings: [5, 4], fret, changes: [] },
    ...({ articulation: "pick", mark: "ink" } as ShownPart),
  });

  it("is at the lowest note of the event there, or of the one before", () => {
    const part = [event(1, 3), event(4, 8)];
    expect(pitchNear(E9, part, 1)).toBe(59 + 3);
    expect(pitchNear(E9, part, 3.9)).toBe(59 + 3);
    expect(pitchNear(E9, part, 9)).toBe(59 + 8);
  });

  it("is amid the strings where nothing is written", () => {
    expect(pitchNear(E9, [event(5, 3)], 1)).toBe(64);
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
