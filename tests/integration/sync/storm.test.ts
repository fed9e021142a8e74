import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import type { SongConnection } from "@/lib/client/sync/songProvider";
import { HeldLog, openWire, until, words } from "./hubHarness";

type Act =
  | { kind: "write" | "rub"; page: number; key: number }
  | { kind: "cut"; page: number }
  | { kind: "refuse" | "allow" | "breathe" };

const act: fc.Arbitrary<Act> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({ kind: fc.constantFrom("write", "rub"), page: fc.nat(2), key: fc.nat(5) }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("cut"), page: fc.nat(2) }) },
  { weight: 4, arbitrary: fc.record({ kind: fc.constantFrom("refuse", "allow", "breathe") }) },
) as fc.Arbitrary<Act>;

const USERS = ["ann", "ben", "cat"];

/** Whoever says saved must find everything shown, deletions too, in what the database holds at that very moment. */
function saysTrue(page: SongConnection, log: HeldLog): boolean {
  if (!page.saved) return true;
  const stored = log.read();
  return Y.snapshotContainsUpdate(Y.snapshot(stored), Y.encodeStateAsUpdate(page.doc));
}

async function weather(acts: readonly Act[]): Promise<void> {
  const log = new HeldLog();
  const wire = await openWire({
    updateLog: log,
    timing: { firstPauseMs: 5, longestPauseMs: 20, gatherMs: 2 },
  });
  try {
    for (const user of USERS) wire.roles.set(user, "student");
    const pages = USERS.map((user) => wire.page(user));
    const lies: string[] = [];
    const check = (when: string) => {
      pages.forEach((page, i) => {
        if (!saysTrue(page, log)) lies.push(`${USERS[i]} after ${when}`);
      });
    };
    for (const page of pages) page.subscribe(() => check("a change of the mark"));
    await until("all are connected", () => pages.every((page) => page.saved));
    for (const [step, one] of acts.entries()) {
      if (one.kind === "write") words(pages[one.page]!.doc).set(`k${one.key}`, `${step}`);
      else if (one.kind === "rub") words(pages[one.page]!.doc).delete(`k${one.key}`);
      else if (one.kind === "cut") wire.cut(USERS[one.page]!);
      else if (one.kind === "breathe") await new Promise((resolve) => setTimeout(resolve, 8));
      else log.refusing = one.kind === "refuse";
      check(`${step}: ${one.kind}`);
    }
    log.refusing = false;
    await until(
      "all is saved",
      () => pages.every((page) => page.saved && page.status === "connected"),
      15_000,
    );
    check("the end");
    expect(lies).toEqual([]);
    const stored = words(log.read()).toJSON();
    for (const page of pages) expect(words(page.doc).toJSON()).toEqual(stored);
  } finally {
    await wire.close();
  }
}

test("through cut lines and a refusing database: saved is never a lie, and in the end all pages and the database agree", async () => {
  await fc.assert(fc.asyncProperty(fc.array(act, { minLength: 10, maxLength: 40 }), weather), {
    numRuns: 12,
    seed: 20_261_125,
    endOnFailure: true,
  });
});
