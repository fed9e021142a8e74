import { describe, expect, it } from "vitest";
import { nearChords, nearKeys } from "@/lib/fit/nearHarmony";
import { nearMisses } from "@/lib/fit/nearMisses";
import { parseHarte } from "@/lib/theory/harte";

const anywhere = () => true;

describe("near misses", () => {
  it("of one note: a half step, a whole step, an octave off, and one more note", () => {
    const sets = nearMisses([67], anywhere).map(({ notesMidi }) => notesMidi.join());
    for (const moved of ["66", "68", "65", "69", "55", "79"]) expect(sets).toContain(moved);
    for (const more of ["67,79", "55,67", "67,74", "60,67", "67,71", "63,67", "67,70", "64,67"])
      expect(sets).toContain(more);
    expect(sets).toHaveLength(14);
  });

  it("of a pair: each note off, both together, top and bottom left out, and one more; none twice, none the pair itself", () => {
    const misses = nearMisses([67, 71], anywhere);
    const sets = misses.map(({ notesMidi }) => notesMidi.join());
    expect(new Set(sets).size).toBe(sets.length);
    expect(sets).not.toContain("67,71");
    expect(misses).toContainEqual({ notesMidi: [67], change: { kind: "without", midi: 71, which: "top" } });
    expect(misses).toContainEqual({
      notesMidi: [71],
      change: { kind: "without", midi: 67, which: "bottom" },
    });
    for (const one of [
      "66,71",
      "68,71",
      "67,70",
      "67,72",
      "65,71",
      "69,71",
      "55,71",
      "67,83",
      "66,70",
      "68,72",
    ])
      expect(sets).toContain(one);
  });

  it("keeps to what can be weighed", () => {
    const reach = (midi: number) => midi >= 60 && midi <= 70;
    for (const { notesMidi } of nearMisses([60, 64], reach)) expect(notesMidi.every(reach)).toBe(true);
  });

  it("of a chord: other roots and other kinds, each a label of its own that sounds otherwise", () => {
    for (const label of ["G:maj", "A:min7", "Eb:7", "B:dim", "C:maj(9)", "F:sus4"]) {
      const chord = parseHarte(label)!;
      const near = nearChords(chord);
      expect(near.length).toBeGreaterThanOrEqual(7);
      const sound = (text: string) => {
        const read = parseHarte(text)!;
        return `${read.rootPitchClass} ${read.pitchClasses.join()}`;
      };
      expect(new Set(near.map(sound)).size).toBe(near.length);
      expect(near.map(sound)).not.toContain(sound(label));
    }
    expect(nearChords(parseHarte("G:maj")!)).toEqual(
      expect.arrayContaining(["G:min", "G:7", "E:min", "D:maj"]),
    );
  });

  it("of a key: its relative, its neighbours by fifths, the other mode", () => {
    expect(nearKeys({ tonic: "G", mode: "major" })).toEqual(
      expect.arrayContaining([
        { tonic: "E", mode: "minor" },
        { tonic: "D", mode: "major" },
        { tonic: "C", mode: "major" },
        { tonic: "G", mode: "minor" },
      ]),
    );
  });
});
