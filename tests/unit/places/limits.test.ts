import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import { handCanPick } from "@/lib/places/limits";
import { layOutNeck } from "@/lib/places/neck";
import { rankPlaces } from "@/lib/places/rankPlaces";

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

describe("hard limits", () => {
  it("lets the hand pick three strings within its spread, four with the ring finger", () => {
    expect(handCanPick([6, 8, 10])).toBe(true);
    expect(handCanPick([3, 10])).toBe(true);
    expect(handCanPick([1, 10])).toBe(false);
    expect(handCanPick([5, 5])).toBe(false);
    expect(handCanPick([])).toBe(false);
    expect(handCanPick([3, 4, 5, 6])).toBe(false);
    expect(handCanPick([3, 4, 5, 6], 4)).toBe(true);
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
