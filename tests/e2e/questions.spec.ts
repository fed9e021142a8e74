import type { Page } from "@playwright/test";
import {
  addAndOpen,
  changesOf,
  expect,
  headingOf,
  inviteInto,
  makeBook,
  test,
  waitForPencil,
  waitForSaved,
} from "./liftbook";

const asked = (page: Page) => page.getByRole("region", { name: "Asked" }).locator("[data-question]");
const questions = (page: Page) => page.getByRole("region", { name: "Questions" });
const card = (page: Page) => questions(page).getByRole("article");

test("a student asks at a stretch by key, the teacher answers, loops and settles it by mouse, and a phone reads it", async ({
  newcomer,
}) => {
  const teacher = await newcomer("Odile");
  const bookUrl = await makeBook(teacher.page, "Asked and answered");
  const songUrl = await addAndOpen(teacher.page, "tests/fixtures/quality/own-4.ogg");
  const student = await newcomer("Pip");
  await inviteInto(teacher, student, bookUrl, "student");
  for (const { page } of [teacher, student]) {
    await page.goto(songUrl);
    await waitForPencil(page);
    await expect(asked(page)).toHaveCount(0);
  }

  await test.step("asked about what is selected, given up with its text kept, and sent by Enter", async () => {
    const { page } = student;
    await changesOf(page).nth(1).click();
    await page.keyboard.press("Shift+Q");
    const field = page.getByLabel("What do you want to know?");
    await expect(field).toBeFocused();
    await page.keyboard.type("pedals or");
    await page.keyboard.press("Escape");
    await expect(field).toHaveCount(0);
    await page.keyboard.press("Shift+Q");
    await expect(field).toHaveValue("pedals or");
    await page.keyboard.type(" slide?");
    await page.keyboard.press("Enter");
    await expect(asked(page)).toHaveAccessibleName(
      /^Open question of you, .*pedals or slide\?, no answer yet$/,
    );
    await expect(card(page)).toBeFocused();
    await waitForSaved(page);
  });

  await test.step("the teacher sees it come, answers by mouse with a stretch, and loops it", async () => {
    const { page } = teacher;
    await expect(page.getByRole("region", { name: "Asked" }).getByText("Pip", { exact: true })).toBeVisible();
    await asked(page).click();
    await expect(headingOf(page)).toHaveText("Question");
    await card(page).getByRole("button", { name: "Reply" }).click();
    await page.getByLabel("Your answer").fill("Pedals: the top note holds.");
    await changesOf(page).nth(2).click();
    await expect(questions(page).getByRole("button", { name: /with \d/ })).toHaveAttribute(
      "aria-pressed",
      "true",
    );
    await questions(page).getByRole("button", { name: "Answer", exact: true }).click();
    await expect(card(page)).toContainText("You");
    await expect(card(page).getByRole("button", { name: /^Go to / })).toHaveCount(2);
    await card(page).getByRole("button", { name: "Loop it" }).click();
    await expect(card(page).getByRole("button", { name: "Stop looping" })).toBeVisible();
    await card(page).getByRole("button", { name: "Stop looping" }).click();
  });

  await test.step("it is settled for both, and folded away once it is left", async () => {
    await card(teacher.page).getByRole("button", { name: "Settled" }).click();
    await expect(card(student.page)).toContainText("Settled by Odile");
    await expect(asked(student.page)).toHaveAccessibleName(/^Settled question of you, .*1 answer$/);
    await student.page.keyboard.press("Escape");
    await expect(questions(student.page)).toContainText("Nothing open in this song");
    await expect(questions(student.page).getByText("Settled (1)")).toBeVisible();
  });

  await test.step("on a phone the sheet says how many are open, and asks about the moment of the playhead", async () => {
    const { page } = student;
    await page.setViewportSize({ width: 390, height: 844 });
    // Whoever was asking has them before them still.
    const fold = page.getByRole("button", { name: "Questions", exact: true });
    await expect(fold).toHaveAttribute("aria-expanded", "true");
    await fold.click();
    await expect(questions(page)).toBeHidden();
    await fold.click();
    await questions(page).getByRole("button", { name: "Ask", exact: true }).click();
    // Put away over what was begun, it comes up again for whoever asks again.
    await fold.click();
    await expect(questions(page)).toBeHidden();
    await page.keyboard.press("Shift+Q");
    await page.getByLabel("What do you want to know?").fill("what is this?");
    await questions(page).getByRole("button", { name: "Ask", exact: true }).click();
    await expect(page.getByRole("button", { name: "Questions (1)" })).toBeVisible();
    await expect(card(page)).toContainText("what is this?");
    await expect(asked(teacher.page)).toHaveCount(2);
  });
});
