import { describe, expect, it } from "vitest";
import { keptText, readKeptDraft, standingOf } from "@/lib/client/copedents/keptDraft";
import { openDraft } from "@/lib/client/copedents/openDraft";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { COPEDENTS } from "@/lib/instrument/copedentCatalog";

describe("a draft kept in the browser", () => {
  it.each(COPEDENTS.map((copedent) => [copedent.id, copedent] as const))(
    "of %s comes back as it was typed",
    (_id, copedent) => {
      const chart = writeChart(copedent);
      const kept = {
        ...{ heldText: "held", readText: JSON.stringify(chart) },
        draft: { ...openDraft(chart), frets: "twenty" },
      };
      expect(readKeptDraft(keptText(kept))).toEqual(kept);
      expect(standingOf(kept, kept.readText)).toBe("on");
    },
  );

  it("goes on from the chart that it was typed beside, or from what was sent of it; else it stands apart", () => {
    const chart = writeChart(COPEDENTS[0]!);
    const kept = { heldText: "held", readText: "sent", draft: { ...openDraft(chart), name: "Another" } };
    expect(standingOf(kept, "held")).toBe("on");
    expect(standingOf(kept, "sent")).toBe("on");
    expect(standingOf(kept, "changed elsewhere")).toBe("apart");
    // All of it reached the server after all.
    expect(standingOf(kept, JSON.stringify({ ...chart, name: "Another" }))).toBe("gone");
  });

  const draft = openDraft(writeChart(COPEDENTS[0]!));
  it.each([
    ["nothing", null],
    ["no JSON", "{"],
    ["null", "null"],
    ["no draft", JSON.stringify({ heldText: "c", readText: "c" })],
    [
      "a draft without strings",
      JSON.stringify({ heldText: "c", readText: "c", draft: { ...draft, strings: undefined } }),
    ],
    [
      "strings that are numbers",
      JSON.stringify({ heldText: "c", readText: "c", draft: { ...draft, strings: [64] } }),
    ],
    [
      "a slot that is nowhere",
      JSON.stringify({
        heldText: "c",
        readText: "c",
        draft: { ...draft, changes: [{ ...draft.changes[0], slot: "toString" }] },
      }),
    ],
  ])("is passed over where there is %s", (_what, text) => {
    expect(readKeptDraft(text)).toBeNull();
  });
});
