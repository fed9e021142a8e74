import { describe, expect, it } from "vitest";
import { changeTyped } from "@/lib/client/song/changeTyped";

const named = (...ids: string[]) => ids.map((id) => ({ id }));

describe("a pedal or lever by the beginning of its name", () => {
  const changes = named("P1", "P2", "P", "LKL", "LKL2", "LKR", "B");
  it.each([
    ["p", "P"],
    ["p2", "P2"],
    ["P1", "P1"],
    ["l", "LKL"],
    ["lkl2", "LKL2"],
    ["lkr", "LKR"],
    ["b", "B"],
    ["4", "LKL"],
    ["7", "B"],
  ])("%s is %s", (typed, id) => expect(changeTyped(changes, typed)?.id).toBe(id));
  it.each(["", "x", "lkv", "0", "8", "p9"])("%j is none", (typed) =>
    expect(changeTyped(changes, typed)).toBeNull(),
  );
});
