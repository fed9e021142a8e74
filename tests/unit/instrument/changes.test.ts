import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { allStages, engagedStages, UnknownChangeError, withStages } from "@/lib/instrument/stages";

const ids = (stages: { id: string }[]) => stages.map((stage) => stage.id).join(" ");

describe("changes together", () => {
  // Common practice, no source: on one string the larger raise wins.
  it("does not add raises, nor lowers", () => {
    expect(effectiveMidi(E9, 5, 0, ["A", "C"])).toBe(61);
    expect(effectiveMidi(E9, 4, 0, ["F", "C"])).toBe(66);
  });

  // howcast.com lesson 512264 (6th lowered a tone with B gives the minor third); b0b.com/tunings/baucum.htm.
  it("adds a raise and a lower where a split is tuned", () => {
    expect(effectiveMidi(E9, 6, 3, ["X", "B"])).toBe(58);
    expect(effectiveMidi(E9, 5, 10, ["A", "V"])).toBe(70);
  });

  it("gives no pitch to a raise and a lower without a split", () => {
    expect(effectiveMidi(E9, 4, 0, ["F", "E"])).toBeNull();
    expect(effectiveMidi({ ...E9, splits: [] }, 6, 3, ["X", "B"])).toBeNull();
    expect(effectiveMidi({ ...E9, splits: [] }, 5, 3, ["X", "B"])).toBe(62);
  });

  it("gives no pitch to a string that is not there", () => {
    expect(effectiveMidi(E9, 11, 0, [])).toBeNull();
  });

  // steelc6th.com, lowering the second string (D. Stewart 2015): the ninth string comes with the second stage.
  it("tells the two stages of a lever apart", () => {
    expect([2, 9].map((string) => effectiveMidi(E9, string, 0, ["D"]))).toEqual([62, 50]);
    expect([2, 9].map((string) => effectiveMidi(E9, string, 0, ["DD"]))).toEqual([61, 49]);
    expect(ids(engagedStages(E9, ["D", "DD"]))).toBe("DD");
  });

  it("names stages in the copedent's order", () => {
    expect(ids(allStages(E9))).toBe("A B C F E V D DD X G");
    expect(ids(engagedStages(E9, ["F", "A"]))).toBe("A F");
  });

  it("refuses a change that the copedent lacks", () => {
    expect(() => effectiveMidi(E9, 5, 0, ["Q"])).toThrow(UnknownChangeError);
    expect(() => withStages(E9, ["DDD"])).toThrow(UnknownChangeError);
  });

  it("leaves out what a player lacks", () => {
    expect(ids(allStages(withStages(E9, ["A", "B", "D"])))).toBe("A B D");
    expect(ids(allStages(withStages(E9, ["DD"])))).toBe("D DD");
  });
});
