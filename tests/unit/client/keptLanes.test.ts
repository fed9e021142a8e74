import { expect, it } from "vitest";
import { KeptLanes } from "@/lib/client/lanes/KeptLanes";

function browser(held: Record<string, string> = {}) {
  return {
    held,
    getItem: (key: string) => held[key] ?? null,
    setItem: (key: string, text: string) => {
      held[key] = text;
    },
  };
}

it("folded lanes and the ruler's kind are as they were when the person comes back, and another's are their own", () => {
  const store = browser();
  const lanes = new KeptLanes("ann", store);
  lanes.toggle("bass");
  lanes.toggle("heard");
  lanes.toggle("bass");
  lanes.nextRuler();
  expect(new KeptLanes("ann", store).now()).toEqual({ folded: ["heard"], ruler: "seconds" });
  expect(new KeptLanes("ben", store).now()).toEqual({ folded: [], ruler: "bars" });
});

it("a lane that is to be seen is opened, and an open one left as it is", () => {
  const lanes = new KeptLanes("ann", browser());
  lanes.toggle("part");
  lanes.open("part");
  expect(lanes.now().folded).toEqual([]);
  const before = lanes.now();
  lanes.open("part");
  expect(lanes.now()).toBe(before);
});

it("what was kept badly, or by another version, is as at first, and a browser that keeps nothing still shows it", () => {
  for (const text of ["{", "3", "null", '{"folded":3,"ruler":"furlongs"}', '{"folded":["cellar"]}'])
    expect(new KeptLanes("ann", browser({ "liftbook.lanes.ann": text })).now()).toEqual({
      folded: [],
      ruler: "bars",
    });
  const full = {
    getItem: () => null,
    setItem: () => {
      throw new Error("no room");
    },
  };
  const lanes = new KeptLanes("ann", full);
  lanes.toggle("record");
  expect(lanes.now().folded).toEqual(["record"]);
});
