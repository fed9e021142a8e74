import { describe, expect, it } from "vitest";
import { sureText } from "@/lib/client/format/format";

describe("how sure a guess is, in words", () => {
  it("never says that a guess is certain or impossible", () => {
    expect([1, 0.996, 0.5, 0.006, 0.001, 0].map(sureText)).toEqual([
      "99 %",
      "99 %",
      "50 %",
      "1 %",
      "under 1 %",
      "under 1 %",
    ]);
  });
});
