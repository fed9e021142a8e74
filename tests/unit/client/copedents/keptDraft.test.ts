import { describe, expect, it } from "vitest";
import { keptText, readKeptDraft } from "@/lib/client/copedents/keptDraft";
import { openDraft } from "@/lib/client/copedents/openDraft";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { COPEDENTS } from "@/lib/instrument/copedentCatalog";

describe("a draft kept in the window", () => {
  it.each(COPEDENTS.map((copedent) => [copedent.id, copedent] as const))(
    "of %s comes back as it was typed, beside the same chart alone",
    (_id, copedent) => {
      const chart = writeChart(copedent);
      const draft = { ...openDraft(chart), frets: "twenty" };
      const text = keptText(JSON.stringify(chart), draft);
      expect(readKeptDraft(text, JSON.stringify(chart))).toEqual(draft);
      expect(readKeptDraft(text, "another")).toBeNull();
    },
  );

  const draft = openDraft(writeChart(COPEDENTS[0]!));
  it.each([
    ["nothing", null],
    ["no JSON", "{"],
    ["null", "null"],
    ["no draft", JSON.stringify({ chartText: "c" })],
    ["a draft without strings", JSON.stringify({ chartText: "c", draft: { ...draft, strings: undefined } })],
    ["strings that are numbers", JSON.stringify({ chartText: "c", draft: { ...draft, strings: [64] } })],
    [
      "a slot that is nowhere",
      JSON.stringify({
        chartText: "c",
        draft: { ...draft, changes: [{ ...draft.changes[0], slot: "toString" }] },
      }),
    ],
  ])("is passed over where there is %s", (_what, text) => {
    expect(readKeptDraft(text, "c")).toBeNull();
  });
});
