import path from "node:path";
import { addAndOpen, dragOverRecord, expect, headingOf, makeBook, selectedOf, test } from "./liftbook";
import { levelsAt, listenIn } from "./listenIn";

test("a note is heard in the record, all else faint, and the record is where it was", async ({
  newcomer,
}) => {
  const { page } = await newcomer("Rupert");
  await makeBook(page, "In the record");
  await listenIn(page);
  // 440 Hz on the left, 660 Hz on the right.
  await addAndOpen(page, path.resolve("tests/fixtures/audio/tone.flac"));
  await page.reload();
  const transport = page.getByRole("region", { name: "Transport" });
  const isPaused = () => transport.getByRole("button", { name: "Play", exact: true }).isVisible();
  /** Where the page says that it is, and how fast. */
  const whereAndHow = async () => {
    const [, minutes, seconds] = /(\d+):(\d+\.\d+)/.exec((await transport.textContent()) ?? "") ?? [];
    return {
      timeSec: 60 * Number(minutes) + Number(seconds),
      percent: await page.getByRole("slider", { name: /speed/ }).inputValue(),
    };
  };
  /** How loud the one tone is, and how far it is ahead of the other, while the page plays what `play` begins. */
  async function heardWhile(play: () => Promise<void>): Promise<{ level: number; ahead: number }> {
    if (await isPaused()) await play();
    const [low = 0, high = 0] = await levelsAt(page, [440, 660]);
    return { level: low, ahead: low - high };
  }
  const playAll = () => page.getByRole("button", { name: "Play", exact: true }).click();
  const isWhole = async () => {
    const { level, ahead } = await heardWhile(playAll);
    return level > -50 && Math.abs(ahead) < 10;
  };

  await test.step("with all let through both tones sound, as loud as they are in the file", async () => {
    await expect(page.getByRole("slider", { name: /speed/ })).toBeVisible();
    await expect.poll(isWhole, { intervals: [60] }).toBe(true);
    // The file is short: it ends by itself, perhaps between a look at it and a click on Pause.
    await expect.poll(isPaused, { timeout: 30_000 }).toBe(true);
  });

  await test.step("a note written on the one lets that one through", async () => {
    await dragOverRecord(page, 0.2, 0.95);
    await selectedOf(page).getByRole("button", { name: "Write a steel note here" }).click();
    await expect(headingOf(page)).toHaveText("Heard note");
    const name = selectedOf(page).getByRole("status");
    for (let step = 0; step < 24 && !(await name.textContent())?.includes("A4"); step += 1) {
      const octave = Number(/[A-G][♭♯]?(\d)/.exec((await name.textContent()) ?? "")?.[1]);
      await page.keyboard.press(octave < 5 ? "Alt+ArrowUp" : "Alt+ArrowDown");
    }
    await expect(name).toContainText("A4");
    for (let slower = 0; slower < 10; slower += 1) await page.keyboard.press(",");
    await page.keyboard.press("Home");
    const before = await whereAndHow();
    const picksOut = async () => {
      const { level, ahead } = await heardWhile(() => page.keyboard.press("r"));
      return level > -60 && ahead > 25;
    };
    await expect.poll(picksOut, { intervals: [60] }).toBe(true);
    await expect.poll(isPaused, { timeout: 30_000 }).toBe(true);
    const after = await whereAndHow();
    expect(after.timeSec).toBeCloseTo(before.timeSec, 1);
    expect(after.percent).toBe("50");
  });

  await test.step("after it all is let through again; a pause ends it at once", async () => {
    await selectedOf(page).getByRole("button", { name: "Hear it in the record" }).click();
    await expect(page.getByRole("button", { name: "Pause" })).toBeVisible();
    await page.getByRole("button", { name: "Pause" }).click();
    await expect(page.getByRole("button", { name: "Play", exact: true })).toBeVisible();
    await expect.poll(isWhole, { intervals: [60] }).toBe(true);
  });
});
