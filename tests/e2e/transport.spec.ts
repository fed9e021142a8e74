import path from "node:path";
import { addAndOpen, dragOverRecord, expect, makeBook, test } from "./liftbook";
import { levelAt, listenIn } from "./listenIn";

const HALF_STEP = 2 ** (1 / 12);

test("a loop is moved by a half step, heard by one channel, silenced and set back, from the keyboard", async ({
  newcomer,
}) => {
  const { page } = await newcomer("Lisbeth");
  await makeBook(page, "All of listening");
  await listenIn(page);
  // 440 Hz on the left, 660 Hz on the right.
  await addAndOpen(page, path.resolve("tests/fixtures/audio/tone.flac"));
  await page.reload();
  await dragOverRecord(page, 0.2, 0.95);
  await page.keyboard.press("l");
  const panel = page.getByRole("region", { name: "Listening" });
  const isAhead = async (hz: number, otherHz: number) =>
    (await levelAt(page, hz)) - (await levelAt(page, otherHz)) > 15;

  await test.step("the panel opens by its key, and says until when the record is not in memory", async () => {
    await page.keyboard.press("F8");
    await expect(panel).toBeVisible();
    await expect(panel.getByRole("status")).toHaveCount(0, { timeout: 30_000 });
  });

  await test.step("a half step higher, both tones are", async () => {
    await page.keyboard.press("Alt+Period");
    await expect(panel.getByText("1 half step up")).toBeVisible();
    await expect.poll(() => isAhead(440 * HALF_STEP, 440), { intervals: [60] }).toBe(true);
    await expect.poll(() => isAhead(660 * HALF_STEP, 660), { intervals: [60] }).toBe(true);
  });

  await test.step("by the left channel alone the right one is not heard, and by the sides both are", async () => {
    await panel.getByRole("button", { name: "left", exact: true }).press("Enter");
    await expect.poll(() => isAhead(440 * HALF_STEP, 660 * HALF_STEP), { intervals: [60] }).toBe(true);
    await panel.getByRole("button", { name: "sides" }).press("Enter");
    await expect.poll(() => isAhead(660 * HALF_STEP, 660), { intervals: [60] }).toBe(true);
  });

  await test.step("silenced it is silent; set back, all is as recorded", async () => {
    await page.keyboard.press("F9");
    await expect.poll(() => levelAt(page, 440 * HALF_STEP), { intervals: [60] }).toBeLessThan(-90);
    await panel.getByRole("button", { name: "As recorded" }).press("Enter");
    await expect.poll(() => isAhead(440, 440 * HALF_STEP), { intervals: [60] }).toBe(true);
    await page.keyboard.press("Escape");
    await expect(panel).toHaveCount(0);
  });
});
