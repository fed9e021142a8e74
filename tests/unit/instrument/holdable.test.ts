import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { feetAndKneesCanHold, holdableSets } from "@/lib/instrument/holdable";
import { engagedStages, type Stage } from "@/lib/instrument/stages";

const holds = (...ids: string[]) => feetAndKneesCanHold(engagedStages(E9, ids));
const pullFrom = (id: string, slot: Stage["change"]["slot"]): Stage => {
  const [stage] = engagedStages(E9, ["G"]);
  return { ...stage!, id, change: { ...stage!.change, id, slot } };
};

describe("feet and knees", () => {
  // pedalsteel.com tea/ank/ankle.html: none, A, B, A+B are the trained states; B+C is the other pair.
  it("press one pedal or two neighbours", () => {
    for (const pedals of [[], ["A"], ["B"], ["C"], ["A", "B"], ["B", "C"]])
      expect(holds(...pedals)).toBe(true);
    expect(holds("A", "C")).toBe(false);
    expect(holds("A", "B", "C")).toBe(false);
  });

  // Common practice, no source: a knee goes one way at a time, and one lever of each knee goes with two pedals.
  it("let each knee go left or right, not both", () => {
    expect(holds("A", "B", "F", "D")).toBe(true);
    expect(holds("F", "E")).toBe(false);
    expect(holds("D", "X")).toBe(false);
    expect(holds("DD", "X")).toBe(false);
  });

  // From memory, no source: lifting the knee with a lever is awkward, and possible.
  it("let a knee be lifted with either of its other levers", () => {
    for (const lever of ["F", "E"]) expect(holds(lever, "V")).toBe(true);
    for (const lever of ["D", "DD", "X"]) expect(holds(lever, "G")).toBe(true);
  });

  it("pull one string by hand at a time", () => {
    const [one, other] = [pullFrom("P", { kind: "hand" }), pullFrom("Q", { kind: "hand" })];
    expect(feetAndKneesCanHold([one])).toBe(true);
    expect(feetAndKneesCanHold([one, other])).toBe(false);
  });

  // larrybell.org/id24.htm: the lock of a universal holds B6 while both knees and the foot play on it.
  it("are free while a lock holds itself", () => {
    const lock = pullFrom("L", { kind: "lock" });
    expect(feetAndKneesCanHold([lock, ...engagedStages(E9, ["A", "B", "E", "V", "D", "G"])])).toBe(true);
  });
});

describe("every set that can be held", () => {
  it("is each subset of stages that passes the rule, once", () => {
    let every: string[][] = [[]];
    for (const { id, stages } of E9.changes) {
      const joined = stages.flatMap((_, at) => every.map((set) => [...set, id.repeat(at + 1)]));
      every = every.concat(joined);
    }
    const allowed = every.filter((ids) => holds(...ids)).map((ids) => ids.join("+"));
    const found = holdableSets(E9).map((set) => set.map((stage) => stage.id).join("+"));
    expect(found.toSorted()).toEqual(allowed.toSorted());
  });

  it("is not gone through where there are too many", () => {
    expect(holdableSets(E9, 50).length).toBeGreaterThan(50);
    expect(holdableSets(E9, 50).length).toBeLessThan(holdableSets(E9).length);
  });
});
