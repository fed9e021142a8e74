import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import { layOutNeck } from "@/lib/places/neck";
import type { TermName } from "@/lib/places/Place";
import { rankPlaces } from "@/lib/places/rankPlaces";
import { USUAL_WEIGHTS } from "@/lib/places/weights";

/** The other pedal order in use, playpedalsteel.com on the two orders; the pitches are the same. */
const CBA: Copedent = {
  ...E9,
  footRest: [2, 3],
  changes: E9.changes.map((change) =>
    change.slot.kind === "pedal"
      ? { ...change, slot: { kind: "pedal", place: 4 - change.slot.place } }
      : change,
  ),
};

const term = (notes: number[], where: string, name: TermName, weights = USUAL_WEIGHTS) => {
  const place = rankPlaces(E9, notes, { weights }).find(
    ({ fret, changes, strings }) => `${fret}${changes.join("")} on ${strings.join("-")}` === where,
  );
  if (place === undefined) throw new Error(`${where} is not among the places`);
  return place.terms.find((each) => each.name === name)?.cost ?? 0;
};

// The open G of fret 3 on E9: string 8 G3, 6 B3, 5 D4, 4 G4, 3 B4 (howcast.com lesson 512264 and the tuning).
describe("picking hands", () => {
  // Thumb and two fingers, some with the ring finger: playpedalsteel.com practice-tips.
  it("pick three strings at once for nothing, a fourth at a cost, and with the ring finger for nothing", () => {
    const name = "too many for a pick";
    expect(term([55, 59, 62], "3 on 8-6-5", name)).toBe(0);
    expect(term([55, 59, 62, 67], "3 on 8-6-5-4", name)).toBeGreaterThan(0);
    expect(term([55, 59, 62, 67, 71], "3 on 8-6-5-4-3", name)).toBeGreaterThan(
      term([55, 59, 62, 67], "3 on 8-6-5-4", name),
    );
    const withRing = { ...USUAL_WEIGHTS, stringsPerPick: 4 };
    expect(term([55, 59, 62, 67], "3 on 8-6-5-4", name, withRing)).toBe(0);
  });

  it("spread as far as from string 1 to string 10 at a cost, and leave nothing out for it", () => {
    // String 10 at fret 3 is D3 (50), string 1 A4 (69).
    expect(term([50, 69], "3 on 10-1", "grip shape")).toBeGreaterThan(
      term([50, 71], "3 on 10-3", "grip shape"),
    );
  });

  it("knows the same sets and the same ease when the pedals stand the other way round", () => {
    const ids = (copedent: Copedent) => layOutNeck(copedent).sets.map((set) => set.ids.join("+"));
    expect(ids(CBA)).toEqual(ids(E9));
    const foot = (copedent: Copedent) =>
      rankPlaces(copedent, [64, 72]).map(({ fret, changes, strings, terms }) => ({
        where: `${fret}${changes.join("")} on ${strings.join("-")}`,
        rest: terms.find(({ name }) => name === "foot off its rest")?.cost ?? 0,
      }));
    const byWhere = (a: { where: string }, b: { where: string }) => (a.where < b.where ? -1 : 1);
    expect(foot(CBA).sort(byWhere)).toEqual(foot(E9).sort(byWhere));
  });
});
