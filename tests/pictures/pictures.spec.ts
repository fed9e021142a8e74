import { mkdir, rm } from "node:fs/promises";
import path from "node:path";
import type { Page } from "@playwright/test";
import {
  addAndOpen,
  changesOf,
  expect,
  headingOf,
  makeBook,
  makeCopedent,
  test,
  testRecording,
  waitForPencil,
} from "../e2e/liftbook";

/** Where they go; git does not keep it. */
const FOLDER = path.resolve("tests/.output/pictures");

const SIZES = [
  [1440, 900],
  [1024, 768],
  [390, 844],
] as const;
const THEMES = { paper: "light", stage: "dark" } as const;

/** Takes what is on the page at every width in both themes. */
async function take(page: Page, name: string): Promise<void> {
  for (const [width, height] of SIZES) {
    await page.setViewportSize({ width, height });
    for (const [theme, colorScheme] of Object.entries(THEMES)) {
      await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
      await page.screenshot({ path: path.join(FOLDER, `${name}-${theme}-${width}.png`) });
    }
  }
  await page.setViewportSize({ width: 1440, height: 900 });
}

test("pictures of every page, theme and width", async ({ newcomer }) => {
  test.setTimeout(900_000);
  await rm(FOLDER, { recursive: true, force: true });
  await mkdir(FOLDER, { recursive: true });
  const { page } = await newcomer("Marigold");
  await page.goto("/books");
  await take(page, "books-none");
  const bookUrl = await makeBook(page, "Thursday at the hall");
  await take(page, "book-empty");
  await addAndOpen(page, testRecording());
  await waitForPencil(page);
  await expect(page.getByRole("region", { name: "Hearing" })).toHaveCount(0, { timeout: 120_000 });
  await take(page, "song");
  await changesOf(page).nth(2).click();
  await expect(headingOf(page)).toHaveText("Change");
  await take(page, "song-change");
  await page.keyboard.press("p");
  await page.keyboard.press("3");
  await expect(headingOf(page)).not.toHaveText("Change");
  await take(page, "song-part");
  await page.keyboard.press("Control+k");
  await expect(page.getByRole("dialog", { name: "Do something" })).toBeVisible();
  await take(page, "song-search");
  await page.keyboard.press("Escape");
  await page.keyboard.press("Control+k");
  await page.keyboard.type("walk round");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("region", { name: /1 of 5$/ })).toBeVisible();
  await take(page, "song-walk");
  await page.keyboard.press("?");
  await expect(page.getByRole("dialog", { name: "Keys" })).toBeVisible();
  await take(page, "song-keys");
  const copedentUrl = await makeCopedent(page, "My E9");
  for (const [name, address] of [
    ["book", bookUrl],
    ["books", "/books"],
    ["copedents", "/copedents"],
    ["copedent", copedentUrl],
    ["kept", "/kept"],
    ["not-found", "/books/no-such-book"],
  ] as const) {
    await page.goto(address);
    await page.waitForLoadState("networkidle");
    await take(page, name);
  }
  await page.goto("/books");
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.waitForURL(/\/(sign-in.*)?$/);
  for (const [name, address] of [
    ["home", "/"],
    ["sign-in", "/sign-in"],
    ["sign-up", "/sign-up"],
    ["invite", "/invite/no-such-link"],
  ] as const) {
    await page.goto(address);
    await take(page, name);
  }
});
