import type { Locator, Page } from "@playwright/test";
import {
  addAndOpen,
  dragOverRecord,
  expect,
  headingOf,
  heardOf,
  inviteInto,
  makeBook,
  selectedOf,
  startOf,
  steelCount,
  stepsOf,
  test,
  testRecording,
  toNoteUnder,
  waitForPencil,
  waitForSaved,
} from "./liftbook";

const tableOf = (page: Page) => page.getByRole("region", { name: "List of heard notes" });
const benchOf = (page: Page) => page.getByRole("region", { name: "Where it lies" });

/** On from the selected note to the first of the band. */
async function walkToBand(page: Page) {
  for (let step = 0; step < 60 && (await headingOf(page).textContent()) !== "Note of the band"; step += 1)
    await page.keyboard.press("ArrowRight");
  await expect(headingOf(page)).toHaveText("Note of the band");
}

test("the band's notes are taken in hand and given to the steel, and back; all are listed", async ({
  newcomer,
}) => {
  const teacher = await newcomer("Henrike");
  const { page } = teacher;
  const bookUrl = await makeBook(page, "Whose note");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const student = await newcomer("Anselm");
  await inviteInto(teacher, student, bookUrl, "student");
  await page.goto(songUrl);
  await waitForPencil(page);
  await student.page.goto(songUrl);
  await waitForPencil(student.page);
  const all = await steelCount(page);
  const show = stepsOf(page).getByRole("button", { name: "Show the band's" });

  await test.step("while they are hidden one walks through the steel's alone", async () => {
    await toNoteUnder(page, 0);
    for (let step = 0; step < 8; step += 1) {
      await page.keyboard.press("ArrowRight");
      await expect(headingOf(page)).toHaveText("Heard note");
    }
  });

  await test.step("shown, they are tapped and walked to, and say what they are and how likely the steel's", async () => {
    await show.click();
    await expect(heardOf(page, "band")).toHaveAttribute("d", /^M.*L/);
    const { x, y } = await startOf(heardOf(page, "band"));
    await page.mouse.click(x, y);
    await expect(headingOf(page)).toHaveText("Note of the band");
    await page.keyboard.press("Escape");
    await toNoteUnder(page, 0);
    await walkToBand(page);
    await expect(selectedOf(page).getByRole("status")).toHaveText(/^[♭♯]?[1-7][A-G][♭♯]?\d/);
    await expect(selectedOf(page)).toContainText(/The band's, \d+ % sure; the steel's, (\d+|under 1) %/);
    await page.keyboard.press("Backspace");
    await expect(page.getByText(/The band's notes stay with what was heard/)).toBeVisible();
  });

  await test.step("one is given to the steel: everyone has it in ink, and who gave it", async () => {
    await selectedOf(page).getByRole("button", { name: "This is the steel's" }).click();
    await expect(headingOf(page)).toHaveText("Heard note");
    await expect(selectedOf(page)).toContainText("The steel's, you say");
    await expect(selectedOf(page)).toContainText("Inked by you");
    await expect.poll(() => steelCount(student.page)).toBe(all + 1);
    await page.keyboard.press("Control+z");
    await expect.poll(() => steelCount(student.page)).toBe(all);
  });

  await test.step("a note of the steel is set aside as the band's, kept, and taken back", async () => {
    await toNoteUnder(page, 1);
    await page.keyboard.press("t");
    await expect(selectedOf(page)).toContainText("The band's, you say");
    await expect(stepsOf(page)).toContainText("1 given to the band.");
    await expect.poll(() => steelCount(student.page)).toBe(all - 1);
    await expect(stepsOf(student.page)).toContainText("1 given to the band.");
    await selectedOf(page).getByRole("button", { name: "This is the steel's" }).click();
    await expect(selectedOf(page)).toContainText("The steel's, you say");
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    await expect.poll(() => steelCount(student.page)).toBe(all);
    await expect(stepsOf(page)).not.toContainText("given to the band");
    await waitForSaved(page);
  });

  await test.step("all are listed page by page, and chosen from there by keys", async () => {
    await stepsOf(page).getByRole("button", { name: "Hide the band's" }).click();
    await page.keyboard.press("i");
    const table = tableOf(page);
    const rows = table.getByRole("row");
    await expect(table.getByRole("columnheader")).toHaveText([
      "Start",
      "End",
      "Note",
      "Off",
      "Moves",
      "Whose",
      "Mark",
    ]);
    await expect(table.getByRole("status")).toHaveText(new RegExp(`^1 to \\d+ of ${all}$`));
    await expect(rows.nth(1)).toHaveText(
      /^\d+\.\d[¼½¾]? 0:\d\d\.\d\d\d+\.\d[¼½¾]? 0:\d\d\.\d\d[A-G][♭♯]?\d[−+]\d+ ¢.*steel, \d+ %pencil, \d+ %$/,
    );
    const button = (row: number) => rows.nth(row).getByRole("button");
    await button(1).focus();
    await page.keyboard.press("ArrowDown");
    await expect(button(2)).toBeFocused();
    const name = (await button(2).textContent()) ?? "";
    await page.keyboard.press("Enter");
    await expect(selectedOf(page).getByRole("status")).toContainText(name);
    await expect(rows.nth(2)).toHaveAttribute("aria-current", "true");
    if (all > 40) {
      await button((await rows.count()) - 1).focus();
      await page.keyboard.press("ArrowDown");
      await expect(table.getByRole("status")).toHaveText(new RegExp(`^41 to \\d+ of ${all}$`));
      await expect(button(1)).toBeFocused();
      await page.keyboard.press("ArrowUp");
      await expect(table.getByRole("status")).toHaveText(new RegExp(`^1 to 40 of ${all}$`));
    }
    await page.keyboard.press("Escape");
    await expect(table).toBeHidden();
    const list = stepsOf(page).getByRole("button", { name: "List them" });
    await list.press("Enter");
    await table.getByRole("button", { name: "Close" }).press("Enter");
    await expect(table).toBeHidden();
    await expect(list).toBeFocused();
  });
});

test("a heard passage goes into the part in one act, and its ways are walked through", async ({
  newcomer,
}) => {
  const { page } = await newcomer("Ottilie");
  await makeBook(page, "Into the part");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const ways = benchOf(page).locator("[data-way]");
  const cells = () => page.getByRole("region", { name: "Part" }).locator("text").allTextContents();

  await test.step("what begins in the selection is written in pencil, glides too, and shown", async () => {
    await dragOverRecord(page, 0.2, 0.95);
    await page.keyboard.press("w");
    const said = page.getByText(/^\d+ events written in pencil\./);
    await expect(said).toBeVisible();
    await expectOverLanes(page, said);
    await expect(ways.first()).toHaveAttribute("aria-pressed", "true");
    const part = page.getByRole("region", { name: "Part" });
    await expect(part.locator('path[class*="joins"]').first()).toBeVisible();
    expect((await cells()).length).toBeGreaterThan(3);
    const lanes = (await page.getByRole("main", { name: "Lanes" }).boundingBox())!;
    await expect
      .poll(async () => {
        const frame = (await part.locator('rect[class*="passage"]').boundingBox())!;
        return Math.min(frame.y + frame.height, lanes.y + lanes.height) - Math.max(frame.y, lanes.y);
      })
      .toBeGreaterThan(100);
  });

  await test.step("the next way takes its place, and one step of undo takes all of it back", async () => {
    const first = await cells();
    await page.keyboard.press("n");
    await expect(ways.nth(1)).toHaveAttribute("aria-pressed", "true");
    expect(await cells()).not.toEqual(first);
    const second = await cells();
    await page.keyboard.press("Control+z");
    await expect.poll(cells).toEqual(first);
    await expect(ways.first()).toHaveAttribute("aria-pressed", "true");
    await page.keyboard.press("n");
    await expect.poll(cells).toEqual(second);
    await page.keyboard.press("Control+z");
    await expect.poll(cells).toEqual(first);
    await page.keyboard.press("Control+z");
    await expect.poll(cells).toEqual([]);
    await expect(benchOf(page)).toContainText("Nothing of it stands in the part now.");
    await ways.first().click();
    await expect.poll(cells).toEqual(first);
    await expect(page.getByText(/^Rubbed out \(/)).toHaveCount(0);
  });

  await test.step("it is inked, and the text tab shows its slides and pedals as the trade does", async () => {
    await benchOf(page).getByRole("button", { name: "Ink it" }).click();
    await expect(benchOf(page)).toContainText(/\d+ events in ink\./);
    const inked = await cells();
    await ways.nth(1).click();
    await expect(page.getByText("Some of it stands in ink, which stays.")).toBeVisible();
    expect(await cells()).toEqual(inked);
    await page.getByRole("button", { name: "Tab out" }).click();
    await expect(page.getByRole("textbox", { name: "Text tab of the part" })).toHaveValue(
      /^ ?\d+ [A-G].*[>/\\]\d/m,
    );
    await page.keyboard.press("Escape");
  });

  await test.step("what is inked stays: the same passage again has nothing more to write", async () => {
    await page.keyboard.press("Escape");
    const inked = await cells();
    await dragOverRecord(page, 0.2, 0.95);
    await page.keyboard.press("w");
    await expect(page.getByText("All of it stands in the part already. Nothing was written.")).toBeVisible();
    expect(await cells()).toEqual(inked);
    await waitForSaved(page);
  });

  await test.step("on a phone it is a section's act, and its ways come up", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.goto(songUrl);
    await waitForPencil(page);
    await page.getByRole("region", { name: "Sections" }).locator("[data-section]").first().click();
    await page
      .getByRole("region", { name: "In hand" })
      .getByRole("button", { name: "Into the part" })
      .click();
    await expect(ways.first()).toBeVisible();
    await expectOverLanes(page, page.getByText(/stands in the part already|written in pencil/));
    await benchOf(page).getByRole("button", { name: "Close" }).click();
    await expect(ways).toHaveCount(0);
    await waitForSaved(page);
  });
});

/** What is said stands over the lanes, and covers neither bench nor transport. */
async function expectOverLanes(page: Page, said: Locator) {
  const lanes = (await page.getByRole("main", { name: "Lanes" }).boundingBox())!;
  const box = (await said.boundingBox())!;
  expect(box.y).toBeGreaterThanOrEqual(lanes.y);
  expect(box.y + box.height).toBeLessThanOrEqual(lanes.y + lanes.height);
  expect(box.x).toBeGreaterThanOrEqual(lanes.x);
  expect(box.x + box.width).toBeLessThanOrEqual(lanes.x + lanes.width);
}
