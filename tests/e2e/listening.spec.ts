import path from "node:path";
import type { Page } from "@playwright/test";
import { addAndOpen, changesOf, expect, makeBook, test, testRecording, waitForPencil } from "./liftbook";
import { levelAt, listenIn } from "./listenIn";

/** Highest sample that may go out, about -1 dBFS (the project's own choice). */
const CEILING = 0.89;
const QUIET = 0.1;

/** What a page keeps of the sound that it would send to the ears. */
interface Caught {
  rendered?: Promise<number[]>;
}

/**
 * Puts a loud source in the record's place and renders the page's own chain offline: a second of a quiet sine, then
 * a second of one far beyond full scale, in bursts.
 */
async function renderLoudInPlaceOfTheRecord(page: Page) {
  await page.addInitScript((quiet) => {
    const caught = window as unknown as Caught;
    class Offline extends OfflineAudioContext {
      constructor() {
        super(1, 2 * 44_100, 44_100);
      }
      createMediaElementSource(): AudioNode {
        const tone = new OscillatorNode(this, { frequency: 330 });
        const loudness = new GainNode(this, { gain: quiet });
        for (let burst = 0; burst < 5; burst += 1) {
          loudness.gain.setValueAtTime(8, 1 + burst * 0.2);
          loudness.gain.setValueAtTime(quiet, 1.1 + burst * 0.2);
        }
        tone.start();
        tone.connect(loudness);
        return loudness;
      }
      override async resume() {
        caught.rendered ??= this.startRendering().then((sound) => [...sound.getChannelData(0)]);
      }
      close() {}
    }
    Object.assign(window, { AudioContext: Offline });
  }, QUIET);
}

test("the record is played no louder than the ceiling, slowed at its own pitch, and in a loop", async ({
  newcomer,
}) => {
  const { page, context } = await newcomer("Leander");
  await makeBook(page, "By ear");
  const bookUrl = page.url();
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);

  await test.step("a loop goes round and counts", async () => {
    await changesOf(page).nth(1).click();
    await page.keyboard.press("l");
    await expect(page.getByRole("button", { name: "Pause" })).toBeVisible();
    await expect(page.getByText(/^[2-9] times through the loop\.$/)).toBeVisible({ timeout: 60_000 });
    await page.keyboard.press("l");
    await expect(page.getByText(/through the loop/)).toHaveCount(0);
    await page.keyboard.press("Space");
    await expect(page.getByRole("button", { name: "Play", exact: true })).toBeVisible();
  });

  await test.step("the ceiling holds, and what is quiet passes as it is", async () => {
    const loud = await context.newPage();
    await renderLoudInPlaceOfTheRecord(loud);
    await loud.goto(songUrl);
    await waitForPencil(loud);
    await loud.getByRole("slider", { name: "level" }).fill("100");
    await loud.getByRole("button", { name: "Play", exact: true }).click();
    await loud.waitForFunction(() => (window as unknown as Caught).rendered !== undefined);
    const sound = await loud.evaluate(() => (window as unknown as Caught).rendered ?? []);
    const peak = (fromSec: number, toSec: number) =>
      Math.max(...sound.slice(fromSec * 44_100, toSec * 44_100).map(Math.abs));
    expect(peak(0.5, 0.95)).toBeGreaterThan(QUIET * 0.95);
    expect(peak(0.5, 0.95)).toBeLessThan(QUIET * 1.05);
    expect(peak(1, 2)).toBeGreaterThan(QUIET * 3);
    expect(peak(1, 2)).toBeLessThanOrEqual(CEILING + 1e-6);
    await loud.close();
  });

  await test.step("at half, a fifth and one and a half of the speed a tone keeps its pitch", async () => {
    await page.goto(bookUrl);
    const slow = await context.newPage();
    await slow.goto(bookUrl);
    await listenIn(slow);
    await addAndOpen(slow, path.resolve("tests/fixtures/audio/tone.flac"));
    await slow.reload();
    // 440 Hz on the left, 660 Hz on the right; played slower without care they would be lower by the same ratio.
    for (const percent of [100, 50, 20, 150]) {
      await slow.getByRole("slider", { name: /speed/ }).fill(String(percent));
      const ratio = percent / 100;
      await expect
        .poll(
          async () => {
            if (await slow.getByRole("button", { name: "Play", exact: true }).isVisible())
              await slow.getByRole("button", { name: "Play", exact: true }).click();
            const kept = Math.min(await levelAt(slow, 440), await levelAt(slow, 660));
            // Where the upper tone would be without care; the lower one, at one and a half, would fall on the upper.
            const moved = percent === 100 ? 300 : 660 * ratio;
            return kept > -50 && kept - (await levelAt(slow, moved)) > 10;
          },
          { message: `pitch at ${percent} %`, timeout: 30_000, intervals: [150] },
        )
        .toBe(true);
    }
    await slow.close();
  });
});
