import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "@playwright/test";
import type { AxeResults } from "axe-core";
import {
  addAndOpen,
  changesOf,
  expect,
  makeBook,
  makeCopedent,
  test,
  testRecording,
  waitForPencil,
} from "./liftbook";

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

/** What moves on the page, by the names of its animations. */
function runningAnimations(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    document
      .getAnimations()
      .filter((each) => each.playState === "running" && each.effect?.getComputedTiming().duration !== 0)
      .map((each) => (each instanceof CSSAnimation ? each.animationName : "a transition")),
  );
}

/** Buttons and headings whose words are cut off, or that stand outside of what can be reached sideways. */
function lostAtThisSize(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const lost = [...document.querySelectorAll<HTMLElement>("button, h1, h2, label, nav a")].filter(
      (element) => {
        if (!element.checkVisibility() || element.closest(".unseen, [aria-hidden]")) return false;
        // How wide a change is drawn says how long it lasts; what has no room in it stands in the list of changes.
        if (element.matches("[data-change]")) return false;
        const { overflowX, textOverflow } = getComputedStyle(element);
        const isCut =
          overflowX !== "visible" &&
          textOverflow !== "ellipsis" &&
          element.scrollWidth > element.clientWidth + 1;
        return isCut || element.getBoundingClientRect().left < -1;
      },
    );
    const isWide = document.documentElement.scrollWidth > document.documentElement.clientWidth;
    return [...lost.map((each) => each.outerHTML.slice(0, 160)), ...(isWide ? ["scrolls sideways"] : [])];
  });
}

test("every page is free of faults by axe, wide and narrow, on paper and on stage", async ({ newcomer }) => {
  test.setTimeout(300_000);
  const { page } = await newcomer("Wren");
  const bookUrl = await makeBook(page, "Plain to all");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const copedentUrl = await makeCopedent(page, "My E9");
  // Every width and every theme, and both themes where there is least room.
  for (const [width, height, colorScheme] of [
    [1440, 900, "light"],
    [1024, 768, "dark"],
    [390, 844, "light"],
    [390, 844, "dark"],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    for (const address of ["/books", bookUrl, songUrl, "/copedents", copedentUrl, "/kept"]) {
      await page.goto(address);
      if (address === songUrl) await waitForPencil(page);
      const where = `${new URL(address, page.url()).pathname} at ${width} px, ${colorScheme}`;
      expect(await faultsOf(page), where).toEqual([]);
      const overflow = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(overflow, `${where} scrolls sideways`).toBeLessThanOrEqual(0);
      expect(await runningAnimations(page), `${where} moves though motion is not wanted`).toEqual([]);
    }
  }
  // WCAG 2.2, success criterion 1.4.4: text at twice its size, with nothing lost.
  for (const address of ["/books", bookUrl, songUrl, "/copedents", copedentUrl, "/kept"]) {
    await page.goto(address);
    if (address === songUrl) await waitForPencil(page);
    await page.evaluate(() => {
      document.documentElement.style.fontSize = "200%";
    });
    // On a phone the layout goes by the browser's own size of text, which this does not change.
    for (const [width, height] of [
      [1024, 768],
      [1440, 900],
    ] as const) {
      await page.setViewportSize({ width, height });
      expect(await lostAtThisSize(page), `${address} at ${width} px with text at 200 %`).toEqual([]);
    }
  }
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.goto("/books");
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.waitForURL(/\/(sign-in.*)?$/);
  for (const address of ["/", "/sign-in", "/sign-up", "/invite/no-such-link"]) {
    await page.goto(address);
    expect(await faultsOf(page), address).toEqual([]);
  }
});

test("every dialog and sheet is free of faults by axe, and is left by the keyboard", async ({ newcomer }) => {
  test.setTimeout(300_000);
  const { page } = await newcomer("Jenny");
  const bookUrl = await makeBook(page, "Opened up");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const button = (name: string) => page.getByRole("button", { name, exact: true });

  for (const { width, height, colorScheme, sheets } of [
    { width: 1440, height: 900, colorScheme: "light", sheets: [] },
    { width: 1024, height: 768, colorScheme: "dark", sheets: ["Steps"] },
    { width: 390, height: 844, colorScheme: "dark", sheets: ["Steps", "Selected", "Where it lies"] },
  ] as const) {
    await page.setViewportSize({ width, height });
    // Still, so that no contrast is measured while a sheet fades in.
    await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    const fine = async (what: string) =>
      expect(await faultsOf(page), `${what} at ${width} px, ${colorScheme}`).toEqual([]);

    await page.goto(bookUrl);
    await page.getByRole("button", { name: /^Rename / }).click();
    await fine("renaming a song");
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: /^Remove / }).click();
    await expect(page.getByRole("dialog", { name: "Remove this song" })).toBeVisible();
    await fine("removing a song");
    await page.keyboard.press("Escape");
    await expect(page.getByRole("dialog")).toHaveCount(0);
    await expect(page.getByRole("button", { name: /^Remove / })).toBeFocused();

    await page.getByRole("button", { name: /^Take the labels of (?!all songs)/ }).click();
    await expect(page.getByRole("dialog", { name: "Take the labels" })).toBeVisible();
    await page.getByRole("checkbox", { name: "Heard notes" }).check();
    await fine("taking labels");
    await page.keyboard.press("Escape");
    await expect(page.getByRole("dialog")).toHaveCount(0);

    await page.goto(songUrl);
    await waitForPencil(page);
    await test.step("the focus goes from the head to the foot, in the order of the page", async () => {
      expect(await page.locator("[tabindex]:not([tabindex='0'], [tabindex='-1'])").count()).toBe(0);
      await page.keyboard.press("Tab");
      await expect(page.getByRole("banner").locator(":focus")).toHaveCount(1);
      await page.keyboard.press("Shift+Tab");
      await page.keyboard.press("Shift+Tab");
      await expect(page.getByRole("region", { name: "Transport" }).locator(":focus")).toHaveCount(1);
    });
    await changesOf(page).nth(1).click();
    await fine("a change selected");
    await page.keyboard.press("Shift+Q");
    await expect(page.getByLabel("What do you want to know?")).toBeFocused();
    await page.keyboard.type("Pedals or slide?");
    await page.keyboard.press("Enter");
    await expect(page.getByRole("article")).toBeFocused();
    await page.keyboard.press("Enter");
    await expect(page.getByLabel("Your answer")).toBeFocused();
    await fine("a question being answered");
    await page.keyboard.press("Escape");
    await page.keyboard.press("Backspace");
    await changesOf(page).nth(1).click();
    await page.keyboard.press("F2");
    await fine("a change being typed");
    await page.keyboard.press("Escape");
    await page.keyboard.press("ArrowDown");
    await fine("a bass note selected");
    await page.keyboard.press("ArrowDown");
    await expect(page.locator("h2", { hasText: "Heard note" })).toBeAttached();
    await fine("a heard note selected");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("ArrowUp");
    await fine("a section selected");
    await page.keyboard.press("F2");
    await fine("a section being named");
    await page.keyboard.press("Escape");
    await page.keyboard.press("h");
    await fine("home in hand");
    await page.keyboard.press("?");
    await expect(page.getByRole("dialog", { name: "Keys" })).toBeVisible();
    await fine("the keys");
    await page.keyboard.press("Escape");
    await expect(page.getByRole("dialog")).toHaveCount(0);
    const search = page.getByRole("dialog", { name: "Do something" });
    await page.keyboard.press("Control+k");
    await expect(search).toBeVisible();
    await page.keyboard.type("rub");
    await expect(search.getByRole("option", { name: /^rub out/ }).first()).toBeVisible();
    await fine("the search of acts");
    await page.keyboard.press("Escape");
    await expect(search).toHaveCount(0);
    await page.keyboard.press("Control+k");
    await expect(search).toBeVisible();
    await page.keyboard.type("walk round");
    await page.keyboard.press("Enter");
    await expect(page.getByRole("region", { name: /1 of 5$/ })).toBeVisible();
    await fine("the first walk");
    await page.getByRole("button", { name: "Leave the walk" }).press("Enter");
    await page
      .getByRole("button", { name: /the part's guitar$/ })
      .first()
      .click();
    await expect(page.getByRole("dialog", { name: "The part's guitar" })).toBeVisible();
    await fine("the part's guitar");
    await page.keyboard.press("Escape");
    await expect(page.getByRole("dialog")).toHaveCount(0);
    await button("Tab out").click();
    await expect(page.getByRole("dialog", { name: "Text tab" })).toBeVisible();
    await fine("the tab");
    await page.keyboard.press("Escape");
    await expect(button("Tab out")).toBeFocused();

    await changesOf(page).nth(1).click();
    await page.keyboard.press("p");
    await page.keyboard.press("3");
    await fine("an event with its places");
    await page.keyboard.press("_");
    await expect(page.getByRole("dialog", { name: "Pedals and levers" })).toBeVisible();
    await fine("pedals and levers");
    await page.keyboard.press("Escape");
    await expect(page.getByRole("dialog")).toHaveCount(0);
    // A sheet that is up lies over panels.
    const raised = page.getByRole("navigation", { name: "Sheets" }).locator('[aria-expanded="true"]:visible');
    if ((await raised.count()) > 0) await raised.click();
    for (const [key, panel, leave] of [
      ["F8", "Listening", "Close Listening"],
      ["i", "List of heard notes", "Close"],
      ["!", "Check of the part", "Close"],
    ] as const) {
      await page.keyboard.press(key);
      await expect(page.getByRole("region", { name: panel })).toBeVisible();
      await fine(panel);
      await page
        .getByRole("region", { name: panel })
        .getByRole("button", { name: leave, exact: true })
        .click();
      await expect(page.getByRole("region", { name: panel })).toHaveCount(0);
    }
    await button("Add a part").click();
    await expect(page.getByRole("dialog", { name: "Parts of the song" })).toBeVisible();
    await fine("the parts of the song");
    await page.keyboard.press("Escape");
    await expect(page.getByRole("dialog")).toHaveCount(0);
    for (const sheet of sheets) {
      await button(sheet).click();
      await expect(button(sheet)).toHaveAttribute("aria-expanded", "true");
      await fine(`the sheet ${sheet}`);
    }
    await page.keyboard.press("Delete");
  }
});
