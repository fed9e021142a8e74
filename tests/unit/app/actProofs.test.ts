import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { KEY_TABLE } from "@/app/songs/[songId]/parts/keyTable";
import { actsOfRow } from "@/lib/client/acts/keyRow";
import { drillsOf, isElsewhere, type Seen } from "../../e2e/acts/Proof";
import { PROOFS } from "../../e2e/acts/proofs";

const WHAT_TO_DO =
  "say in tests/e2e/acts (proofs.ts names the file of each group) how it is done by mouse and where its effect is read: " +
  "`drill(what is in hand, the control or gesture, where it is read)`, which acts.spec then does both ways; or name the steps " +
  "of another spec that prove both. An act that has no way by mouse or finger wants a control first.";

const acts = KEY_TABLE.flatMap(({ name, keys }) =>
  keys.flatMap(actsOfRow).map((act) => ({ group: name, ...act })),
);
const elsewhere = Object.values(PROOFS).flatMap((group) => Object.values(group).filter(isElsewhere));

describe("every act with a key", () => {
  it("is proven by its key and by mouse", () => {
    const unproven = acts.filter(({ group, label }) => PROOFS[group]?.[label] === undefined);
    const told = unproven.map(({ group, label, name }) => `"${group}", "${label}" (${name}): ${WHAT_TO_DO}`);
    expect(told).toEqual([]);
  });

  it("stands in the table of keys under the group and the key that its proof names", () => {
    const stale = Object.entries(PROOFS).flatMap(([group, proofs]) =>
      Object.keys(proofs)
        .filter((label) => !acts.some((act) => act.group === group && act.label === label))
        .map(
          (label) =>
            `"${group}", "${label}" is in tests/e2e/acts, but not in keyTable.ts: take it out or rename it.`,
        ),
    );
    expect(stale).toEqual([]);
  });

  it("has keys to press, where its row says them only for readers", () => {
    const unpressed = acts
      .filter(({ press, group, label }) => {
        const proof = PROOFS[group]?.[label];
        return press === null && proof && drillsOf(proof).some(({ keys }) => keys === undefined);
      })
      .map(({ group, label }) => `"${group}", "${label}" needs \`keys\` in its drill.`);
    expect(unpressed).toEqual([]);
  });

  it("is proven by steps that there are, where another spec proves it", async () => {
    const seen = elsewhere.flatMap(({ key, pointer }) => ("spec" in pointer ? [key, pointer] : [key]));
    const missing: Seen[] = [];
    for (const each of seen) {
      const spec = await readFile(new URL(`../../e2e/${each.spec}.spec.ts`, import.meta.url), "utf8");
      if (!spec.includes(`"${each.step}"`)) missing.push(each);
    }
    expect(missing).toEqual([]);
  });
});
