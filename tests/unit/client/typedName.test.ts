import { describe, expect, it } from "vitest";
import { namedMeanwhile, typedOn } from "@/lib/client/song/typedName";

describe("a name that is being typed", () => {
  it("stays as it is typed while another gives another name, which is told", () => {
    let typed = typedOn(null, "Fid", "");
    expect(namedMeanwhile(typed, "")).toBeNull();
    typed = typedOn(typed, "Fiddl", "Violin");
    expect(typed).toEqual({ text: "Fiddl", before: "" });
    expect(namedMeanwhile(typed, "Violin")).toBe("Violin");
    // Theirs may also be none.
    expect(namedMeanwhile({ text: "Fiddle", before: "Violin" }, "")).toBe("");
  });

  it("stands against nothing where both say the same, or nothing is typed", () => {
    expect(namedMeanwhile(typedOn(null, "Violin ", ""), "Violin")).toBeNull();
    expect(namedMeanwhile(null, "Violin")).toBeNull();
  });
});
