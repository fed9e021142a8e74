import {
  addAndOpen,
  dragOverRecord,
  expect,
  headingOf,
  inviteInto,
  makeBook,
  selectedOf,
  stepsOf,
  test,
  testRecording,
  waitForPencil,
  waitForSaved,
} from "./liftbook";

test("passages are made, looped and counted, and stand on everyone's strip", async ({ newcomer }) => {
  const teacher = await newcomer("Wilmot");
  const { page } = teacher;
  const bookUrl = await makeBook(page, "A few bars");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const tabs = page.getByRole("list", { name: "Passages of the song" }).getByRole("button");
  const column = stepsOf(page);

  await test.step("one is made of the selection by keys, named and looped until it counts", async () => {
    await expect(column).toContainText("A passage is a few bars that you work on");
    await dragOverRecord(page, 0.1, 0.16);
    await page.keyboard.press("Shift+P");
    await expect(tabs).toHaveCount(1);
    await expect(headingOf(page)).toHaveText("Passage 1");
    await page.keyboard.press("F2");
    await expect(page.getByLabel("Name of the passage")).toBeFocused();
    await page.keyboard.type("Lick");
    await page.keyboard.press("Enter");
    await expect(column.getByRole("heading", { name: "Lick" })).toBeVisible();
    await page.keyboard.press("Escape");
    await page.keyboard.press("Shift+L");
    await expect(column.getByRole("button", { name: "Stop looping" })).toBeVisible();
    await expect(column).toContainText(/(Once|\d+ times) through by you, \d+ at full speed/);
    await page.keyboard.press("Space");
  });

  await test.step("others are made of bars and of a section, and one walks through them", async () => {
    await column.getByLabel("Or by bars").fill("999");
    await page.keyboard.press("Enter");
    await expect(column.getByRole("alert")).toContainText("This song has bars 1 to");
    await column.getByLabel("Or by bars").fill("2-3");
    await page.keyboard.press("Enter");
    await expect(tabs).toHaveCount(2);
    await expect(column.getByRole("heading", { level: 2 })).toHaveText("Bars 2 to 3");
    await page.getByRole("region", { name: "Sections" }).locator("button[data-section]").first().click();
    await selectedOf(page).getByRole("button", { name: "Make it a passage" }).click();
    await expect(tabs).toHaveCount(3);
    const last = await column.getByRole("heading", { level: 2 }).textContent();
    await page.keyboard.press("Shift+PageDown");
    await expect(column.getByRole("heading", { level: 2 })).not.toHaveText(last ?? "");
    await page.keyboard.press("Backspace");
    await expect(tabs).toHaveCount(2);
    await page.keyboard.press("Control+z");
    await expect(tabs).toHaveCount(3);
  });

  await test.step("the speed of each stays with it, and all is there after a reload", async () => {
    await tabs.filter({ hasText: "Lick" }).click();
    for (let slower = 0; slower < 8; slower += 1) await page.keyboard.press(",");
    const speed = page.getByLabel("speed, pitch kept");
    await expect(speed).toHaveValue("60");
    await tabs.filter({ hasText: "Bars 2 to 3" }).click();
    await tabs.filter({ hasText: "Lick" }).click();
    await expect(speed).toHaveValue("60");
    await waitForSaved(page);
    await page.reload();
    await expect(column.getByRole("heading", { name: "Lick" })).toBeVisible();
    await expect(speed).toHaveValue("60");
    await expect(column).toContainText(/through by you/);
  });

  await test.step("a second person sees them and who played them, at the same speed", async () => {
    const student = await newcomer("Jory");
    await inviteInto(teacher, student, bookUrl, "student");
    await student.page.goto(songUrl);
    await student.page
      .getByRole("list", { name: "Passages of the song" })
      .getByRole("button", { name: /, Lick,/ })
      .click();
    await expect(stepsOf(student.page)).toContainText(/(Once|\d+ times) by Wilmot/);
    await expect(student.page.getByLabel("speed, pitch kept")).toHaveValue("60");
    await student.page.setViewportSize({ width: 390, height: 844 });
    await student.page.getByRole("button", { name: "Steps" }).click();
    await expect(stepsOf(student.page).getByRole("heading", { name: "Lick" })).toBeVisible();
  });
});
