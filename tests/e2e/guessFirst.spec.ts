import type { Page } from "@playwright/test";
import {
  addAndOpen,
  changesOf,
  expect,
  inviteInto,
  makeBook,
  stepsOf,
  test,
  testRecording,
  waitForPencil,
  waitForSaved,
} from "./liftbook";

const shelf = (page: Page) => stepsOf(page).getByRole("region", { name: "Guess first" });
const panel = (page: Page) => page.getByRole("region", { name: "Guess", exact: true });
const covers = (page: Page) => page.locator("[data-cover]");

test("a teacher keeps lanes covered; a student guesses, takes a hint and uncovers, by keys alone", async ({
  newcomer,
}) => {
  const [teacher, student] = [await newcomer("Tess"), await newcomer("Stig")];
  const bookUrl = await makeBook(teacher.page, "Guess first");
  const songUrl = await addAndOpen(teacher.page, testRecording());
  await waitForPencil(teacher.page);
  const names = await changesOf(teacher.page).allTextContents();

  await test.step("the teacher covers all lanes for students, and still sees all", async () => {
    const toggles = shelf(teacher.page).getByRole("group", { name: "Covered for students" });
    for (const lane of ["home", "changes", "heard", "places"])
      await toggles.getByRole("button", { name: lane }).click();
    await expect(toggles.getByRole("button", { pressed: true })).toHaveCount(4);
    await waitForSaved(teacher.page);
    await expect(covers(teacher.page)).toHaveCount(0);
    await expect(changesOf(teacher.page)).toHaveCount(names.length);
  });

  const { page } = student;
  await inviteInto(teacher, student, bookUrl, "student");
  await page.goto(songUrl);

  await test.step("nothing of what is covered stands on the student's page", async () => {
    await expect(covers(page).first()).toBeVisible();
    await expect(page.locator('[data-cover="changes"]')).toHaveCount(2);
    await expect(changesOf(page)).toHaveCount(0);
    await expect(page.getByRole("banner")).toContainText("covered: make your guess");
    await expect(shelf(page)).toContainText("Tess keeps");
    const words = ((await page.locator("body").textContent()) ?? "").replaceAll(/Tess|Stig/g, "");
    expect(words).not.toMatch(/\b[A-G][♭♯]? (major|minor)\b/);
    expect(words).not.toMatch(/[Hh]ome [A-G]/);
  });

  await test.step("F4 opens the guess; it is held against the record, and kept with one hint", async () => {
    await page.keyboard.press("F4");
    await expect(panel(page)).toContainText("Guess home");
    await page.keyboard.type("G");
    await expect(panel(page)).toContainText(/0\.\d\d\s*(Fits|May fit|Does not fit)/, { timeout: 30_000 });
    await page.keyboard.type("?");
    await expect(panel(page).getByRole("list", { name: "Hints" }).getByRole("listitem")).toHaveCount(1);
    await page.keyboard.press("Enter");
    await expect(panel(page).getByRole("row")).toHaveCount(2);
    await expect(panel(page).getByRole("row").nth(1)).toContainText("covered");
  });

  await test.step("uncovered, guess and answer stand side by side, and home stands on the page again", async () => {
    await panel(page).getByRole("button", { name: "Uncover home" }).press("Enter");
    await expect(panel(page).getByRole("row").nth(1)).toContainText(/[A-G][♭♯]? (major|minor)/);
    await expect(page.getByRole("banner")).not.toContainText("covered: make your guess");
    await page.keyboard.press("Escape");
    await expect(panel(page)).toHaveCount(0);
    await expect(changesOf(page)).toHaveCount(0);
  });

  await test.step("a click on a cover guesses there, and uncovers that bar alone", async () => {
    await page
      .locator('[data-cover="changes"]')
      .first()
      .click({ position: { x: 200, y: 20 } });
    await expect(panel(page)).toContainText("Guess the change");
    await page.keyboard.type("5");
    await page.keyboard.press("Enter");
    await panel(page).getByRole("button", { name: "Uncover it here" }).click();
    await expect(changesOf(page)).not.toHaveCount(0);
    expect(await changesOf(page).count()).toBeLessThan(names.length);
    await waitForSaved(page);
  });

  await test.step("the notes and the place of a beat are guessed alike", async () => {
    await page.keyboard.press("Escape");
    for (const [lane, typed] of [
      ["heard", "B3 G4"],
      ["places", "5+6 3 A"],
    ] as const) {
      await page
        .locator(`[data-cover="${lane}"]`)
        .first()
        .click({ position: { x: 260, y: 20 } });
      await expect(panel(page)).toContainText(lane === "heard" ? "Guess the notes" : "Guess the place");
      await page.keyboard.type(typed);
      await expect(panel(page)).toContainText(/0\.\d\d\s*(Fits|May fit|Does not fit)/);
      await page.keyboard.press("Enter");
      await panel(page).getByRole("button", { name: "Uncover it here" }).click();
      await expect(panel(page).getByRole("row").nth(1)).not.toContainText("covered");
      await page.keyboard.press("Escape");
    }
    await waitForSaved(page);
  });

  await test.step("the teacher sees how it went", async () => {
    await teacher.page.goto(songUrl);
    const rows = shelf(teacher.page).getByRole("table", { name: "Stig" }).getByRole("row");
    await expect(rows.filter({ hasText: "home" })).toContainText(/1[01] of 11/);
    await expect(rows.filter({ hasText: "changes" })).toContainText(/1[01] of 10/);
    await expect(rows.filter({ hasText: "heard" })).toContainText(/1[01] of 10/);
    await expect(rows.filter({ hasText: "places" })).toContainText("places1–0");
    await shelf(teacher.page).getByText("Guesses (4)").click();
    await expect(shelf(teacher.page).getByRole("listitem")).toHaveCount(4);
  });
});
