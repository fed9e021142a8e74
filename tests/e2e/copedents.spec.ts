import { readFile } from "node:fs/promises";
import path from "node:path";
import type { Page } from "@playwright/test";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { addAndOpen, expect, inviteInto, makeBook, makeCopedent, test, waitForSaved } from "./liftbook";

const TONE = path.resolve("tests/fixtures/audio/tone.flac");

const partOf = (page: Page) => page.getByRole("region", { name: "Part", exact: true });
const cellOf = (page: Page, text: string) => partOf(page).locator("text").filter({ hasText: text });

/** Opens the sheet of the part's guitar and chooses one there. */
async function chooseGuitar(page: Page, name: RegExp): Promise<void> {
  await partOf(page)
    .getByRole("button", { name: /the part's guitar$/ })
    .click();
  const select = page.getByRole("dialog", { name: "The part's guitar" }).getByLabel("Another guitar");
  const option = select.locator("option").filter({ hasText: name });
  await select.selectOption(await option.first().getAttribute("value"));
}

test("a guitar is made, changed and shared; the part is played on it, and read by others on theirs", async ({
  newcomer,
}) => {
  const ada = await newcomer("Ada");
  const { page } = ada;
  const bookUrl = await makeBook(page, "Two necks");
  const songUrl = await addAndOpen(page, TONE);

  await test.step("made from a preset, with one letter and one lever of its own, and saved as it is typed", async () => {
    await makeCopedent(page, "Ada's E9");
    const saved = page.getByRole("status").filter({ hasText: /^Saved$/ });
    await page.getByRole("button", { name: /^P1/ }).click();
    await page.getByLabel("Letter, as in tab").fill("Z");
    const lowered = page.getByLabel("V on string 5");
    await lowered.fill("down");
    await expect(page.getByText(/"down" is no move: write \+ or \+\+/)).toBeVisible();
    await expect(page.getByText(/^Not saved yet.*kept in this browser/)).toBeVisible();
    await page.reload();
    await expect(lowered).toHaveValue("down");
    await lowered.fill("--");
    await expect(saved).toBeVisible();
    // Strings 5 and 10 up a whole step make the 6 minor: domain.md 2.1, after b0b.com, understanding E9th.
    await page.getByRole("button", { name: /^Z, / }).click();
    const neck = page.getByRole("region", { name: "On the neck" });
    await expect(neck).toContainText("C♯m");
    await neck.getByRole("slider", { name: "Fret" }).fill("3");
    await expect(neck).toContainText("Em");
    await expect(page.getByRole("button", { name: /^Z \+ B 4 A/ })).toBeVisible();
  });

  await test.step("it stands as it was typed after a reload, goes out as a file, and is shared in the book", async () => {
    await page.reload();
    await expect(page.getByLabel("V on string 5")).toHaveValue("−−");
    // What was typed a moment ago is sent on the way out.
    await page.getByLabel("Frets").fill("23");
    await page.getByRole("link", { name: "Copedents", exact: true }).first().click();
    await page.getByRole("link", { name: "Ada's E9" }).click();
    await expect(page.getByLabel("Frets")).toHaveValue("23");
    const [file] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Take out the chart" }).click(),
    ]);
    const chart = JSON.parse(await readFile(await file.path(), "utf8")) as Chart;
    expect(chart.changes?.find(({ id }) => id === "V")?.moves).toEqual({ "5": -2, "10": -1 });
    await page.getByRole("checkbox", { name: "Two necks" }).check();
    await expect(page.getByText("The members of Two necks see it now")).toBeVisible();
  });

  await test.step("the part is played on it: its letters are typed and shown", async () => {
    await page.goto(songUrl);
    await chooseGuitar(page, /^Ada's E9$/);
    await page.getByRole("button", { name: "Play the part on it" }).click();
    await expect(partOf(page).getByRole("button", { name: /^Ada's E9/ })).toBeVisible();
    await partOf(page).click({ position: { x: 300, y: 90 } });
    await page.keyboard.press("3");
    await page.keyboard.press("z");
    await expect(cellOf(page, "3Z")).toHaveCount(1);
    await page.keyboard.press("_");
    const list = page.getByRole("dialog", { name: "Pedals and levers" });
    await expect(list.getByRole("button", { name: /Z/, pressed: true })).toBeFocused();
    await page.keyboard.press("v");
    await page.keyboard.press("Enter");
    await expect(list.getByRole("button", { name: /V/, pressed: true })).toBeFocused();
    await page.keyboard.press("Enter");
    await expect(list.getByRole("status")).toContainText(/^Z: /);
    await page.keyboard.press("Escape");
    await expect(list).toBeHidden();
    await waitForSaved(page);
  });

  const ben = await newcomer("Ben");
  await inviteInto(ada, ben, bookUrl, "listener");
  await page.goto(songUrl);
  await test.step("a member looks at it and cannot change it; the part has its letters for him too", async () => {
    await ben.page.goto("/copedents");
    await expect(ben.page.getByText("Ada's, in Two necks")).toBeVisible();
    await ben.page.getByRole("link", { name: "Ada's E9" }).click();
    await expect(ben.page.getByRole("button", { name: "Make mine from it" })).toBeVisible();
    await expect(ben.page.getByLabel("V on string 5")).toHaveAttribute("readonly", "");
    await expect(ben.page.getByRole("button", { name: "Remove" })).toHaveCount(0);
    await ben.page.goto(songUrl);
    await expect(cellOf(ben.page, "3Z")).toHaveCount(1);
  });

  await test.step("on another guitar he sees that one's letters, for himself alone, and what it lacks", async () => {
    await chooseGuitar(ben.page, /^E9, ten strings, three pedals and six levers$/);
    await expect(ben.page.getByText("All that is written can be played on it")).toBeVisible();
    await ben.page.getByRole("button", { name: "Show it on this guitar, for me" }).click();
    await expect(cellOf(ben.page, "3A")).toHaveCount(1);
    await expect(cellOf(page, "3Z")).toHaveCount(1);
    await chooseGuitar(ben.page, /^Lap steel C6, six strings$/);
    await ben.page.getByRole("button", { name: "Show it on this guitar, for me" }).click();
    await expect(cellOf(ben.page, "3Z!")).toHaveCount(1);
    await ben.page.getByText("1 event marked ! cannot be played on it").click();
    await expect(ben.page.getByText(/String 5 is tuned to B3/)).toBeVisible();
    // E4 with the bar at fret 3 lies elsewhere on six strings that begin at C3.
    await ben.page.getByRole("button", { name: "Place them anew" }).click();
    await expect(ben.page.getByText("1 placed anew, for you alone.")).toBeVisible();
    await ben.page.getByRole("button", { name: "Back to its own" }).click();
    await expect(cellOf(ben.page, "3Z")).toHaveCount(1);
  });

  await test.step("carried over by whoever writes, it goes with its letters to everyone, and back in one step", async () => {
    await chooseGuitar(page, /^E9, ten strings, pedals in C-B-A order$/);
    await page.getByRole("button", { name: "Carry the part over" }).click();
    for (const each of [page, ben.page]) await expect(cellOf(each, "3A")).toHaveCount(1);
    await page.keyboard.press("Control+z");
    for (const each of [page, ben.page]) {
      await expect(cellOf(each, "3Z")).toHaveCount(1);
      await expect(partOf(each).getByRole("button", { name: /^Ada's E9/ })).toBeVisible();
    }
  });

  await test.step("removed after being asked, it is gone for its maker; the part keeps its copy", async () => {
    await page.goto("/copedents");
    await page.getByRole("link", { name: "Ada's E9" }).click();
    await page.getByRole("button", { name: "Remove", exact: true }).click();
    const asking = page.getByRole("dialog", { name: "Remove this copedent" });
    await asking.getByRole("button", { name: "Keep it" }).click();
    await expect(asking).toBeHidden();
    await page.getByRole("button", { name: "Remove", exact: true }).click();
    await asking.getByRole("button", { name: "Remove it for good" }).click();
    await expect(page).toHaveURL(/\/copedents$/);
    await expect(page.getByRole("link", { name: "Ada's E9" })).toHaveCount(0);
    await page.goto(songUrl);
    await expect(cellOf(page, "3Z")).toHaveCount(1);
  });
});
