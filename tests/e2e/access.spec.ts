import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "@playwright/test";
import type { AxeResults } from "axe-core";
import { addAndOpen, expect, makeBook, test, testRecording, waitForPencil } from "./liftbook";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Faults that axe-core finds on the page by the rules of WCAG 2.2 A and AA. */
async function faultsOf(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const result = await page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run(options: object): Promise<AxeResults> } };
    return axe.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] });
  });
  expect(result.passes.length).toBeGreaterThan(5);
  return result.violations.flatMap((fault) =>
    fault.nodes.map((node) => `${fault.id}: ${node.target.join(" ")} ${node.failureSummary ?? ""}`),
  );
}

test("every page is free of faults by axe, wide and narrow, on paper and on stage", async ({ newcomer }) => {
  test.setTimeout(300_000);
  const { page } = await newcomer("Wren");
  const bookUrl = await makeBook(page, "Plain to all");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  for (const [width, height] of [
    [1440, 900],
    [1024, 768],
    [390, 844],
  ] as const)
    for (const colorScheme of ["light", "dark"] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      for (const address of ["/books", bookUrl, songUrl]) {
        await page.goto(address);
        if (address === songUrl) await waitForPencil(page);
        const where = `${new URL(address, page.url()).pathname} at ${width} px, ${colorScheme}`;
        expect(await faultsOf(page), where).toEqual([]);
        const overflow = await page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        );
        expect(overflow, `${where} scrolls sideways`).toBeLessThanOrEqual(0);
      }
    }
  await page.goto("/books");
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.waitForURL(/\/(sign-in.*)?$/);
  for (const address of ["/", "/sign-in", "/sign-up", "/invite/no-such-link"]) {
    await page.goto(address);
    expect(await faultsOf(page), address).toEqual([]);
  }
});
