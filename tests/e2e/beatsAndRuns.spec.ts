import type { Page } from "@playwright/test";
import {
  addAndOpen,
  changesOf,
  expect,
  headingOf,
  makeBook,
  selectedOf,
  test,
  testRecording,
  waitForPencil,
} from "./liftbook";

const tapsOf = (page: Page) => page.getByRole("region", { name: "Tap the beats" });
const rulerOf = (page: Page) => page.getByRole("region", { name: "Bars" });
const placesOf = async (page: Page) =>
  Promise.all(
    (await changesOf(page).all()).map(async (change) => (await change.getAttribute("title"))?.split(",")[0]),
  );

test("beats are tapped, a downbeat is moved, and a run of changes falls on bars, each taken back in one step", async ({
  newcomer,
}) => {
  const { page } = await newcomer("Rue");
  await makeBook(page, "Counting in");
  await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const inked = selectedOf(page).getByText(/^Inked by you/);

  await test.step("taps while the record plays are fitted, shown and laid, and undo brings the old beats back", async () => {
    await page.keyboard.press("x");
    await expect(headingOf(page)).toHaveText("Beat");
    await page.keyboard.press("Space");
    await expect(page.getByRole("button", { name: "Pause" })).toBeVisible();
    for (let beat = 0; beat < 6; beat += 1) {
      await page.keyboard.press("t");
      await page.waitForTimeout(400);
    }
    await page.keyboard.press("Space");
    await expect(tapsOf(page)).toContainText(/\d+ beats, [\d.]+ beats a minute/);
    await page.keyboard.press("Enter");
    await expect(inked).toBeVisible();
    await expect(tapsOf(page).getByRole("button", { name: "Drop them" })).toHaveCount(0);
    await page.keyboard.press("Control+z");
    await expect(selectedOf(page)).toContainText("In pencil");
  });

  await test.step("a bar is dragged by its name on the ruler to the next beat", async () => {
    const bar = rulerOf(page).locator('[data-bar="bar 2"]');
    const from = (await bar.boundingBox())!;
    const next = rulerOf(page).locator('[data-bar="bar 3"]');
    const barPx = (await next.boundingBox())!.x - from.x;
    await page.mouse.move(from.x + 12, from.y + 8);
    await page.mouse.down();
    await page.mouse.move(from.x + 12 + barPx / 8, from.y + 8);
    await page.mouse.move(from.x + 12 + barPx / 4, from.y + 8);
    await page.mouse.up();
    await expect(inked).toBeVisible();
    await expect
      .poll(async () => Math.abs((await bar.boundingBox())!.x - from.x - barPx / 4))
      .toBeLessThan(barPx / 8);
    await page.keyboard.press("Control+z");
    await expect.poll(async () => Math.abs((await bar.boundingBox())!.x - from.x)).toBeLessThan(2);
  });

  await test.step("a run is seen before it is written, and one undo takes it back", async () => {
    await changesOf(page).nth(1).click();
    const before = await placesOf(page);
    await page.keyboard.type("1 4 (5 57) 6-");
    const run = page.getByRole("region", { name: "Changes in a run" });
    await expect(run).toContainText(/^.*5 changes in bars \d+ to \d+\./);
    await expect(page.locator("[data-ghost]")).not.toHaveCount(0);
    expect(await placesOf(page)).toEqual(before);
    await page.keyboard.press("Enter");
    await expect(run).toHaveCount(0);
    await expect(headingOf(page)).toHaveText("Change");
    await expect(inked).toBeVisible();
    await page.keyboard.press("Control+z");
    await expect.poll(() => placesOf(page)).toEqual(before);
  });
});
