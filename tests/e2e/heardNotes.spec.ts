import type { Page } from "@playwright/test";
import {
  addAndOpen,
  changesOf,
  dragOverRecord,
  expect,
  headingOf,
  heardOf,
  inviteInto,
  makeBook,
  selectedOf,
  startOf,
  stepsOf,
  test,
  testRecording,
  toNoteUnder,
  waitForPencil,
  waitForSaved,
} from "./liftbook";

const bigOf = (page: Page) => selectedOf(page).getByRole("status");

test("the steel's notes stand in pencil, are put right, shared, and written into the part", async ({
  newcomer,
}) => {
  const teacher = await newcomer("Rosalind");
  const { page } = teacher;
  const bookUrl = await makeBook(page, "Note for note");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  await expect(stepsOf(page)).toContainText(/0 of the steel's \d+ in ink/);

  await test.step("a note says what it is, whose, how sure the machine is, and what is picked with it", async () => {
    await toNoteUnder(page, 1);
    await expect(bigOf(page)).toHaveText(/^[♭♯]?[1-7][A-G][♭♯]?[2-6]/);
    await expect(selectedOf(page)).toContainText(/The steel's, \d+ % sure/);
    await expect(selectedOf(page)).toContainText(/In pencil, heard by the machine, \d+ % sure/);
    await page.keyboard.press("ArrowRight");
    await expect(headingOf(page)).toHaveText("Heard note");
    await page.keyboard.press("ArrowUp");
    await expect(headingOf(page)).toHaveText("Bass note");
  });

  await test.step("it is chosen by its trace, and sounded alone while the record is still", async () => {
    await page.keyboard.press("Escape");
    const { x, y } = await startOf(heardOf(page, "pencil"));
    await page.mouse.click(x, y);
    await expect(headingOf(page)).toHaveText("Heard note");
    await page.keyboard.press("Space");
    await expect(page.getByRole("button", { name: "Pause" })).toBeVisible();
    await page.keyboard.press("s");
    await expect(page.getByRole("button", { name: "Pause" })).toHaveCount(0);
  });

  await test.step("it is inked, moved by a half step, made longer, and all of it is taken back", async () => {
    await toNoteUnder(page, 1);
    const before = (await bigOf(page).textContent()) ?? "";
    const where = () =>
      stepsOf(page)
        .getByText(/^\d+:\d\d\.\d\d to /)
        .textContent();
    const lasted = (await where()) ?? "";
    await page.keyboard.press("Enter");
    await expect(selectedOf(page)).toContainText("Inked by you");
    await expect(stepsOf(page)).toContainText("1 of the steel's");
    await page.keyboard.press("Alt+ArrowUp");
    await expect(bigOf(page)).not.toHaveText(before);
    await selectedOf(page).getByRole("button", { name: "Move its end a step later" }).click();
    await expect.poll(where).not.toBe(lasted);
    for (let undo = 0; undo < 3; undo += 1) await page.keyboard.press("Control+z");
    await expect(bigOf(page)).toHaveText(before);
    await expect.poll(where).toBe(lasted);
    await expect(selectedOf(page)).toContainText("In pencil");
  });

  await test.step("a move is written at the playhead, told what made it, and taken away", async () => {
    const moves = selectedOf(page).getByRole("list", { name: "Its moves" }).getByRole("listitem");
    const before = await moves.count();
    const write = selectedOf(page).getByRole("button", { name: "It moves at the playhead" });
    await page.keyboard.press("Home");
    await write.click();
    await expect(page.getByText(/Put the playhead to where it moves/)).toBeVisible();
    const trace = page.getByRole("region", { name: "Heard" }).locator("path").last();
    const { x } = await startOf(trace);
    const record = (await page.getByRole("region", { name: "Record", exact: true }).boundingBox())!;
    await page.mouse.click(x + 10, record.y + 30);
    await write.click();
    await expect(moves).toHaveCount(before + 1);
    await expect(selectedOf(page)).toContainText(
      /oes up a whole step at .*, by pedal or bar, not to be told/,
    );
    await moves.first().getByRole("combobox").first().selectOption({ label: "Down a half step" });
    await moves.first().getByRole("combobox").last().selectOption({ label: "by the bar" });
    await expect(selectedOf(page)).toContainText(/lid down a half step at .*, by the bar/);
    await moves
      .first()
      .getByRole("button", { name: /^It stays/ })
      .click();
    await expect(moves).toHaveCount(before);
    for (let undo = 0; undo < 4; undo += 1) await page.keyboard.press("Control+z");
    await expect(selectedOf(page)).toContainText("In pencil");
  });

  const student = await newcomer("Wim");
  await test.step("the other sees what was inked, and what was rubbed out and put back", async () => {
    await inviteInto(teacher, student, bookUrl, "student");
    await page.goto(songUrl);
    await student.page.goto(songUrl);
    await waitForPencil(page);
    await waitForPencil(student.page);
    const counts = async (on: Page) =>
      /(\d+) of the steel's (\d+) in ink/
        .exec((await stepsOf(on).textContent()) ?? "")
        ?.slice(1)
        .map(Number);
    const [, all = 0] = (await counts(page)) ?? [];
    expect(all).toBeGreaterThan(1);
    await toNoteUnder(page, 1);
    await page.keyboard.press("Enter");
    await expect.poll(() => counts(student.page)).toEqual([1, all]);
    await page.keyboard.press("Delete");
    await expect.poll(() => counts(student.page)).toEqual([0, all - 1]);
    await page.getByText(/^Rubbed out \(/).click();
    await page.getByRole("row", { name: /note / }).getByRole("button", { name: "Put back" }).click();
    await expect.poll(() => counts(student.page)).toEqual([1, all]);
    await waitForSaved(page);
  });

  await test.step("the band's notes are shown on request", async () => {
    const band = heardOf(page, "band");
    await expect(band).toHaveAttribute("d", "");
    await stepsOf(page).getByRole("button", { name: "Show the band's" }).click();
    await expect(stepsOf(page).getByRole("button", { name: "Hide the band's" })).toBeVisible();
    await expect(band).toHaveAttribute("d", /^M.*L/);
    await stepsOf(page).getByRole("button", { name: "Hide the band's" }).click();
    await expect(band).toHaveAttribute("d", "");
  });

  await test.step("a passage is told in a teacher's words", async () => {
    await dragOverRecord(page, 0.2, 0.9);
    await expect(selectedOf(page)).toContainText(/The steel: .*the top (line|note).*the neck/);
  });

  await test.step("what is picked together goes to the bench, and from there into the part", async () => {
    await page.setViewportSize({ width: 1440, height: 700 });
    await toNoteUnder(page, 1);
    await page.keyboard.press("w");
    const bench = page.getByRole("region", { name: "Where it lies" });
    await expect(bench.getByLabel("Notes")).toHaveValue(/^[A-G][b#]?\d( [A-G][b#]?\d)*$/);
    await expect(headingOf(page)).toHaveText("Empty place");
    await bench.locator("[data-place]").first().click();
    await expect(bench.getByLabel("Notes")).toHaveValue("");
    await expect(stepsOf(page)).toContainText(/[1-9] events? written\./);
    // The lanes are lower now that the bench stands under them: what was written is to be seen all the same.
    await expect
      .poll(async () => {
        const caret = (await page.locator('rect[class*="caret"]').boundingBox())!;
        const lanes = (await page.getByRole("main", { name: "Lanes" }).boundingBox())!;
        return caret.y + caret.height <= lanes.y + lanes.height && caret.y >= lanes.y;
      })
      .toBe(true);
  });

  await test.step("on a phone the bench comes up for them and goes when they are placed", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await changesOf(page).nth(2).click();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    await page
      .getByRole("region", { name: "In hand" })
      .getByRole("button", { name: "Into the part" })
      .click();
    const card = page.locator("[data-place]").first();
    await expect(card).toBeVisible();
    await card.click();
    await expect(card).toBeHidden();
    await waitForSaved(page);
  });
});
