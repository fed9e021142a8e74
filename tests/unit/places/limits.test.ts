import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import { engagedStages } from "@/lib/instrument/stages";
import { feetAndKneesCanHold, handCanPick } from "@/lib/places/limits";
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
const holds = (...ids: string[]) => feetAndKneesCanHold(engagedStages(E9, ids));

describe("hard limits", () => {
  // pedalsteel.com tea/ank/ankle.html: none, A, B, A+B are the trained states; B+C is the other pair.
  it("lets one foot press one pedal or two neighbours", () => {
    for (const pedals of [[], ["A"], ["B"], ["C"], ["A", "B"], ["B", "C"]])
      expect(holds(...pedals)).toBe(true);
    expect(holds("A", "C")).toBe(false);
    expect(holds("A", "B", "C")).toBe(false);
  });

  // Common practice, no source: a knee goes one way at a time, and one lever of each knee goes with two pedals.
  it("lets each knee go one way", () => {
    expect(holds("A", "B", "F", "D")).toBe(true);
    for (const [one, other] of [
      ["F", "E"],
      ["F", "V"],
      ["D", "X"],
      ["DD", "G"],
    ])
      expect(holds(one!, other!)).toBe(false);
  });

  it("pulls one string by hand at a time", () => {
    const [pulled] = engagedStages(E9, ["G"]);
    const hand = { ...pulled!, change: { ...pulled!.change, id: "P", slot: { kind: "hand" as const } } };
    const other = { ...hand, change: { ...hand.change, id: "Q" } };
    expect(feetAndKneesCanHold([hand])).toBe(true);
    expect(feetAndKneesCanHold([hand, other])).toBe(false);
  });

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
