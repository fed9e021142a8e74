import { describe, expect, it } from "vitest";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { TermName } from "@/lib/places/Place";
import type { RankContext } from "@/lib/places/RankedPlace";
import { differsInKind, rankPlaces } from "@/lib/places/rankPlaces";
import { HarteError } from "@/lib/theory/harte";

const G = { tonic: "G", mode: "major" } as const;
const at3 = { fret: 3, changes: [], strings: [5, 3] };
const find = (notes: number[], where: string, context: RankContext = {}) => {
  const place = rankPlaces(E9, notes, context).find(
    ({ fret, changes, strings }) => `${fret}${changes.join("")} on ${strings.join("-")}` === where,
  );
  if (place === undefined) throw new Error(`${where} is not among the places`);
  return place;
};
const term = (notes: number[], where: string, name: TermName, context: RankContext = {}) =>
  find(notes, where, context).terms.find((each) => each.name === name)?.cost ?? 0;

describe("ranked places", () => {
  it("run from cheap to dear, each costing the sum of its terms", () => {
    const ranked = rankPlaces(E9, [64, 72], { before: at3, after: at3, chordLabel: "C:maj", key: G });
    const costs = ranked.map(({ cost }) => cost);
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
    for (const { cost, terms } of ranked) {
      expect(cost).toBeCloseTo(
        terms.reduce((sum, each) => sum + each.cost, 0),
        9,
      );
      expect(new Set(terms.map(({ name }) => name)).size).toBe(terms.length);
    }
  });

  it("let three stand out that differ in kind, the cheapest first", () => {
    const ranked = rankPlaces(E9, [66, 74], { key: G });
    const standing = ranked.filter(({ standsOut }) => standsOut);
    expect(standing).toHaveLength(3);
    expect(ranked[0]?.standsOut).toBe(true);
    for (const one of standing)
      for (const other of standing) if (one !== other) expect(differsInKind(one, other)).toBe(true);
  });

  it("prefer A with B to B with C where both sound the same, unless the foot is on C", () => {
    const ahead = (context: RankContext) =>
      find([64, 72], "3BC on 5-3", context).cost - find([64, 72], "3AB on 5-3", context).cost;
    expect(ahead({})).toBeGreaterThan(0);
    expect(ahead({ before: { fret: 3, changes: ["B", "C"], strings: [4, 3] } })).toBeLessThan(0);
  });

  it("say in words what to do", () => {
    const said = (notes: number[], where: string, context: RankContext) => find(notes, where, context).reason;
    expect(said([64, 72], "3AB on 5-3", { before: at3, chordLabel: "C:maj", key: G })).toBe(
      "Bar stays at 3, press A and B. The whole C chord lies here.",
    );
    const on = { fret: 3, changes: ["A", "B"], strings: [5, 3] };
    expect(said([64, 73], "5 on 5-3", { before: on })).toBe("Bar up two frets to 5, pedals off.");
    expect(said([64, 73], "5 on 5-3", {})).toBe("Bar at fret 5, no pedals.");
    expect(said([67], "4E on 4", { before: on })).toMatch(
      /^Bar up one fret to 4, E lever on, A and B may stay down\.$/,
    );
    expect(said([62], "0D on 2", {})).toBe(
      "Open strings, D lever on to its half stop. Open strings: no vibrato and no slide.",
    );
    expect(said([58], "3BX on 6", {})).toContain("Needs a string tuned to split");
  });

  it("count the bar's way: farther, downward and in haste is dearer", () => {
    const travel = (where: string, notes: number[], context: RankContext = {}) =>
      term(notes, where, "bar travel", { before: { fret: 5, changes: [], strings: [5] }, ...context });
    expect(travel("5 on 5", [64])).toBe(0);
    expect(travel("8 on 5", [67])).toBeGreaterThan(travel("6 on 5", [65]));
    expect(travel("3 on 5", [62])).toBeGreaterThan(travel("7 on 5", [66]));
    const slow = travel("7 on 5", [66], { secondsSinceBefore: 2 });
    expect(travel("7 on 5", [66], { secondsSinceBefore: 0.1 })).toBeGreaterThan(slow);
  });

  it("shun open strings, but not in E and A, nor in a quick run", () => {
    const open = (context: RankContext) => term([59], "0 on 5", "open strings", context);
    expect(open({ key: G })).toBeGreaterThan(0);
    expect(open({ key: { tonic: "E", mode: "major" } })).toBe(0);
    expect(open({ key: G, lengthSec: 0.12 })).toBe(0);
  });

  // By analogy with E9's E (common practice, no source): the lap steel's open strings are a C6 chord.
  it("let open strings be in the key that they are tuned to", () => {
    const lap = findCopedent("lap-c6")!;
    const open = (tonic: string) =>
      rankPlaces(lap, [64], { key: { tonic, mode: "major" } })
        .find(({ fret }) => fret === 0)
        ?.terms.some(({ name }) => name === "open strings");
    expect([open("C"), open("E"), open("A")]).toEqual([false, true, true]);
  });

  it("charge for what is hard to reach or not on every guitar", () => {
    expect(term([58], "3BX on 6", "split")).toBeGreaterThan(0);
    expect(term([55, 63], "2CF on 8-5", "far lever")).toBeGreaterThan(0);
    expect(term([66, 68], "0 on 1-3", "grip shape")).toBeGreaterThan(0);
    expect(term([59, 68], "0 on 5-3", "grip shape")).toBe(0);
  });

  it("speak for a position that carries the chord in force, passing notes aside", () => {
    const chord = (notes: number[], where: string, chordLabel: string) =>
      term(notes, where, "chord in force", { chordLabel });
    expect(chord([64, 72], "3AB on 5-3", "C:maj")).toBeLessThan(0);
    expect(chord([64, 72], "3AB on 5-3", "F#:maj")).toBe(0);
    expect(chord([64], "3A on 5", "G:maj")).toBe(0);
    expect(chord([64], "3A on 5", "N")).toBe(0);
  });

  it("refuse what cannot be understood, and have nothing for what cannot be played", () => {
    expect(rankPlaces(E9, [30])).toEqual([]);
    expect(() => rankPlaces(E9, [60], { chordLabel: "what" })).toThrow(HarteError);
  });

  it("pass over what a neighbour holds on another guitar", () => {
    const before = { fret: 3, changes: ["A"], strings: [5, 3] };
    const foreign = { ...before, changes: ["Q", "A"] };
    expect(rankPlaces(E9, [60], { before: foreign })).toEqual(rankPlaces(E9, [60], { before }));
    const silent = rankPlaces(E9, [60], { before: { fret: 3, changes: [], strings: [] } });
    for (const { cost } of silent) expect(Number.isFinite(cost)).toBe(true);
  });
});
