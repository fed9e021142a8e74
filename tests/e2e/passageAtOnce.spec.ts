import type { Page } from "@playwright/test";
import {
  addAndOpen,
  dragOverRecord,
  expect,
  inviteInto,
  makeBook,
  selectedOf,
  steelCount,
  stepsOf,
  test,
  testRecording,
  waitForSaved,
} from "./liftbook";

const hearHere = (page: Page) => selectedOf(page).getByRole("button", { name: "Hear the notes here" });
const NONE = "None of the steel's heard so far.";

test("a passage of a song that nobody has heard is heard at once, shared, and taken back in one step", async ({
  newcomer,
}) => {
  const teacher = await newcomer("Ottoline");
  const { page } = teacher;
  const bookUrl = await makeBook(page, "At once");
  const songUrl = await addAndOpen(page, testRecording());
  await test.step("the machine is stopped before it has heard anything", async () => {
    const hearing = page.getByRole("region", { name: "Hearing" });
    await hearing.getByRole("button", { name: "Cancel" }).click();
    await expect(hearing).toContainText("Hearing was cancelled");
    await expect(stepsOf(page)).toContainText(NONE);
  });

  const student = await newcomer("Piet");
  await inviteInto(teacher, student, bookUrl, "student");
  await page.goto(songUrl);
  await student.page.goto(songUrl);

  await test.step("on a phone it is done by touch, from the strip that tells what is in hand", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await dragOverRecord(page, 0.2, 0.9);
    const hear = page.getByRole("region", { name: "In hand" }).getByRole("button", { name: "Hear notes" });
    await hear.click();
    await expect(page.getByText(/of the steel heard here/)).toBeVisible({ timeout: 60_000 });
    await expect(hear).toHaveCount(0);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(hear).toBeVisible();
    await page.setViewportSize({ width: 1440, height: 900 });
    // Opened anew, so that no drag meets lanes that are still growing wide.
    await page.goto(songUrl);
    await expect(stepsOf(page)).toContainText(NONE);
  });

  let count = 0;
  await test.step("by the button: the steel's notes stand in pencil, heard by the machine", async () => {
    await dragOverRecord(page, 0.1, 0.6);
    await hearHere(page).click();
    await expect.poll(() => steelCount(page), { timeout: 60_000 }).toBeGreaterThan(0);
    count = await steelCount(page);
    await expect(page.getByText(/note.? of the steel heard here, in pencil\./)).toBeVisible();
    await expect(selectedOf(page)).toContainText(/Last heard for you, \d/);
    await expect(page.getByRole("region", { name: "Heard" }).locator("path[class*=pencil]")).toHaveAttribute(
      "d",
      /^M/,
    );
    await waitForSaved(page);
  });

  await test.step("the other sees them, and who had them heard", async () => {
    await expect.poll(() => steelCount(student.page)).toBe(count);
    await dragOverRecord(student.page, 0.1, 0.6);
    await expect(selectedOf(student.page)).toContainText("Last heard for Ottoline");
  });

  await test.step("one step takes them all back, on both pages, and does them again", async () => {
    await page.keyboard.press("Control+z");
    await expect(stepsOf(page)).toContainText(NONE);
    await expect(stepsOf(student.page)).toContainText(NONE);
    await page.keyboard.press("Control+Shift+z");
    await expect.poll(() => steelCount(student.page)).toBe(count);
  });

  await test.step("by the key: what was inked is left as it is", async () => {
    await stepsOf(student.page)
      .getByRole("button", { name: `Ink all ${count}` })
      .click();
    await expect(stepsOf(page)).toContainText(`${count} of the steel's ${count} in ink`);
    // A new selection takes away what was said of the first hearing.
    await dragOverRecord(page, 0.1, 0.6);
    const said = page.getByText(/of the steel heard here/);
    await expect(said).toHaveCount(0);
    await page.keyboard.press("q");
    await expect(said).toBeVisible({ timeout: 60_000 });
    await expect(stepsOf(page)).toContainText(`${count} of the steel's ${count} in ink`);
  });

  await test.step("it can be ended while it goes on, and says what is wrong where there is no line", async () => {
    await page.reload();
    await dragOverRecord(page, 0.3, 0.5);
    const address = /\/api\/songs\/[^/]+\/ear$/;
    await page.route(address, () => {});
    await page.keyboard.press("q");
    await expect(selectedOf(page)).toContainText("Fetching the passage");
    await page.keyboard.press("Escape");
    await expect(hearHere(page)).toBeVisible();
    await page.unroute(address);
    await page.route(address, (route) => route.abort());
    await hearHere(page).click();
    await expect(selectedOf(page)).toContainText(/the server was not reached. Nothing was changed./);
    await page.unroute(address);
  });

  await test.step("whoever only listens has no such act", async () => {
    const listener = await newcomer("Quirin");
    await inviteInto(teacher, listener, bookUrl, "listener");
    await listener.page.goto(songUrl);
    await expect.poll(() => steelCount(listener.page)).toBe(count);
    await dragOverRecord(listener.page, 0.1, 0.6);
    await expect(selectedOf(listener.page).getByRole("heading", { level: 2 })).toHaveText("Selection");
    await expect(hearHere(listener.page)).toHaveCount(0);
    await listener.page.keyboard.press("q");
    await expect(listener.page.getByText("Fetching the passage")).toHaveCount(0);
  });
});
