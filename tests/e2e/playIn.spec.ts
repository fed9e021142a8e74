import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Page } from "@playwright/test";
import { encodeWav } from "@/lib/synth/encodeWav";
import { seededNoise } from "@/lib/synth/seededNoise";
import { renderSteel } from "@/lib/synth/steelVoice";
import { parsePitchName } from "@/lib/theory/spelling";
import { installFakeMidi } from "../fixtures/entry/fakeMidi";
import { BROWSER_SWITCHES, findBrowser } from "./browser";
import { addAndOpen, expect, makeBook, test, testRecording, waitForPencil, waitForSaved } from "./liftbook";

const benchOf = (page: Page) => page.getByRole("region", { name: "Where it lies" });
const fieldOf = (page: Page) => benchOf(page).getByLabel("Notes");
const chosenOf = (page: Page) => benchOf(page).locator('[data-place][aria-pressed="true"]');
const stringsOf = (page: Page) => page.getByRole("region", { name: "Selected" }).getByRole("status").first();

declare global {
  /** How many sounds the page has begun to play. */
  var sounded: number;
}

function countSounds(): void {
  globalThis.sounded = 0;
  const { start } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (...when) {
    globalThis.sounded += 1;
    start.apply(this, when);
  };
}

/** The pitches that stand in the bench's field, however home spells them. */
async function named(page: Page): Promise<(number | null)[]> {
  const text = await fieldOf(page).inputValue();
  return text === "" ? [] : text.split(" ").map((name) => parsePitchName(name).midi);
}

test("notes are played in by a keyboard and a microphone, and typed as numbers", async ({
  newcomer,
  playwright,
}) => {
  const { page, context } = await newcomer("Walburga");
  await page.addInitScript(installFakeMidi);
  await page.addInitScript(countSounds);
  await makeBook(page, "Played in");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const playIn = benchOf(page).getByRole("group", { name: "Play in" });
  const keyboard = playIn.getByRole("button", { name: "keyboard" });

  await test.step("leave is asked for when it is wanted; a refusal and a missing keyboard are told", async () => {
    expect(await page.evaluate(() => midi.askedCount)).toBe(0);
    await page.evaluate(() => {
      midi.refusal = "NotAllowedError";
    });
    await keyboard.click();
    await expect(benchOf(page)).toContainText("The browser keeps MIDI from this page.");
    await page.evaluate(() => {
      midi.refusal = null;
    });
    await page.keyboard.press("k");
    await expect(keyboard).toHaveAttribute("aria-pressed", "true");
    await expect(benchOf(page)).toContainText("No keyboard is connected.");
    await page.evaluate(() => midi.plug("Stage keys"));
    await expect(benchOf(page)).toContainText("Hearing Stage keys.");
  });

  await test.step("what is held together lies on the bench at once; N tries it, Enter writes it", async () => {
    await page.keyboard.press("p");
    await page.evaluate(() => {
      midi.send("Stage keys", 0x90, 67, 90);
      midi.send("Stage keys", 0x90, 71, 90);
      midi.send("Stage keys", 0x80, 67, 0);
      midi.send("Stage keys", 0x90, 71, 0);
    });
    await expect.poll(() => named(page)).toEqual([71, 67]);
    // Struck together, they sound as one.
    await expect.poll(() => page.evaluate(() => sounded)).toBe(1);
    await expect(benchOf(page).locator("[data-place]").first()).toBeVisible();
    await page.keyboard.press("n");
    await page.keyboard.press("Enter");
    await expect(fieldOf(page)).toHaveValue("");
    await expect(chosenOf(page)).toHaveCount(1);
    await expect(stringsOf(page)).not.toHaveText(/: nothing$/);
  });

  await test.step("a keyboard that goes is told of, and listening ends by the same key", async () => {
    await page.evaluate(() => midi.unplug("Stage keys"));
    await expect(benchOf(page)).toContainText("No keyboard is connected.");
    await page.keyboard.press("k");
    await expect(keyboard).toHaveAttribute("aria-pressed", "false");
  });

  await test.step("F2 leads into the field, Enter writes the easiest place, Esc leads back", async () => {
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("F2");
    await expect(fieldOf(page)).toBeFocused();
    await page.keyboard.type("3 9");
    await expect(benchOf(page).getByRole("alert")).toContainText('"9" is no note here');
    await page.keyboard.press("Escape");
    await expect(fieldOf(page)).toHaveValue("");
    await expect(fieldOf(page)).not.toBeFocused();
    await page.keyboard.press("F2");
    await page.keyboard.type("3 5");
    await page.keyboard.press("Enter");
    await expect(fieldOf(page)).not.toBeFocused();
    await expect(chosenOf(page)).toHaveCount(1);
    // Back in the lane, the next key is the lane's again.
    await page.keyboard.press("ArrowRight");
    await expect(stringsOf(page)).toHaveText(/: nothing$/);
    await waitForSaved(page);
  });

  await test.step("one note into the microphone is named, and a pair; the microphone is given back", async () => {
    const folder = await mkdtemp(path.join(tmpdir(), "liftbook-microphone-"));
    const file = path.join(folder, "played.wav");
    await writeFile(file, encodeWav([noteThenPair()], 48_000));
    const listening = await playwright.chromium.launch({
      executablePath: await findBrowser(),
      args: [
        ...BROWSER_SWITCHES,
        "--use-fake-ui-for-media-stream",
        "--use-fake-device-for-media-stream",
        `--use-file-for-fake-audio-capture=${file}`,
      ],
    });
    try {
      const other = await listening.newPage({ storageState: await context.storageState() });
      await other.goto(songUrl);
      await waitForPencil(other);
      await other.keyboard.press("Shift+K");
      await expect(benchOf(other)).toContainText("stays in this browser and is not kept");
      await expect.poll(() => named(other)).toEqual([62]);
      await expect.poll(() => named(other), { timeout: 40_000 }).toEqual([64, 59]);
      await other.keyboard.press("Shift+K");
      await expect(benchOf(other)).not.toContainText("is not kept");
    } finally {
      await listening.close();
      await rm(folder, { recursive: true });
    }
  });
});

/** The steel for the browser's false microphone, which plays it over and over: D4, then B3 with E4. */
function noteThenPair(): Float32Array {
  const picked = (midi: number, startSec: number) => ({
    ...{ startSec, endSec: startSec + 1.5, pitch: [{ timeSec: 0, midi }], vibrato: null },
    ...{ level: 0.3, swellSec: 0 },
  });
  return renderSteel([picked(62, 0.3), picked(59, 2.3), picked(64, 2.3)], 4.2, 48_000, seededNoise(1));
}
