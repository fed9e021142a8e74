import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Page } from "@playwright/test";
import { encodeWav } from "@/lib/synth/encodeWav";
import { seededNoise } from "@/lib/synth/seededNoise";
import type { SteelNote } from "@/lib/synth/steelPluck";
import { renderSteel } from "@/lib/synth/steelVoice";
import { midiToHertz } from "@/lib/units/pitch";
import { addAndOpen, expect, headingOf, makeBook, steelCount, test } from "./liftbook";
import { levelsAt, listenIn } from "./listenIn";

const RATE_HZ = 44_100;
/** E4 over B3, a fourth that lies in many places of the neck; B3 is pulled up a whole step under it and let go again. */
const PAIR = [59, 64];
const HEARD_DB = -55;
const SILENT_DB = -75;

/** A record of a steel alone. */
async function pairRecord(folder: string): Promise<string> {
  const note = (pitch: SteelNote["pitch"]): SteelNote => ({
    ...{ startSec: 0.5, endSec: 2.5, pitch, vibrato: null, level: 0.5, swellSec: 0 },
  });
  const [low = 0, high = 0] = PAIR;
  const pulled = [
    { timeSec: 0.5, midi: low },
    { timeSec: 1.2, midi: low },
    { timeSec: 1.3, midi: low + 2 },
    { timeSec: 1.8, midi: low + 2 },
    { timeSec: 1.9, midi: low },
  ];
  const samples = renderSteel(
    [note(pulled), note([{ timeSec: 0.5, midi: high }])],
    4,
    RATE_HZ,
    seededNoise(1),
  );
  const file = path.join(folder, "pair.wav");
  await writeFile(file, encodeWav([samples], RATE_HZ));
  return file;
}

/** The quieter of the pair's two fundamentals in the right ear now, in dB. */
async function pairLevel(page: Page): Promise<number> {
  return Math.min(
    ...(await levelsAt(
      page,
      PAIR.map((midi) => midiToHertz(midi)),
    )),
  );
}

test("places for a pair are tried by ear in the loop and one is inked, from the keyboard alone", async ({
  newcomer,
}) => {
  const { page } = await newcomer("Wendeline");
  const folder = await mkdtemp(path.join(tmpdir(), "liftbook-pair-"));
  await makeBook(page, "Where it lies by ear");
  await addAndOpen(page, await pairRecord(folder));
  await expect.poll(() => steelCount(page), { timeout: 90_000 }).toBeGreaterThan(1);
  await listenIn(page, "right");
  await page.reload();
  await expect.poll(() => steelCount(page)).toBeGreaterThan(1);
  const cells = () => page.getByRole("region", { name: "Part" }).locator("text").allTextContents();
  const card = page.locator('[data-place][aria-current="true"]');
  const press = (...keys: string[]) =>
    keys.reduce((before, key) => before.then(() => page.keyboard.press(key)), Promise.resolve());
  const isSilentFor = async (ms: number) => {
    const until = Date.now() + ms;
    let loudest = Number.NEGATIVE_INFINITY;
    while (Date.now() < until) loudest = Math.max(loudest, await pairLevel(page));
    return loudest < SILENT_DB;
  };
  const steelIsHeard = () =>
    expect.poll(() => pairLevel(page), { intervals: [40] }).toBeGreaterThan(HEARD_DB);

  await test.step("a heard pair is selected and looped, record left, steel right: no steel yet", async () => {
    for (let down = 0; down < 3 && (await headingOf(page).textContent()) !== "Heard note"; down += 1)
      await press("ArrowDown");
    await expect(headingOf(page)).toHaveText("Heard note");
    await press("y", "l");
    await expect(page.getByRole("button", { name: "both", exact: true })).toHaveAttribute(
      "aria-pressed",
      "true",
    );
    // As it begins, the record is on its way from both ears to the left one.
    await expect(page.getByText(/\b[1-9]\d* times? through the loop\.$/)).toBeVisible({ timeout: 30_000 });
    expect(await isSilentFor(2_200)).toBe(true);
    await press("w");
  });

  const tried: string[] = [];
  await test.step("three places sound at its time, one key each, and none is written", async () => {
    for (let count = 0; count < 3; count += 1) {
      await press("n");
      await expect(card).toHaveCount(1);
      const name = (await card.locator("strong").first().textContent()) ?? "";
      expect(tried).not.toContain(name);
      tried.push(name);
      await steelIsHeard();
    }
    expect(await cells()).toEqual([]);
  });

  await test.step("left, it is silent again; tried once more and inked, it stands in the part and sounds on", async () => {
    await press("Escape");
    await expect(card).toHaveCount(0);
    await expect.poll(() => isSilentFor(2_200), { timeout: 15_000 }).toBe(true);
    await press("n", "n");
    await expect(card).toHaveCount(1);
    const fret = /fret (\d+)/.exec((await card.textContent()) ?? "")?.[1];
    await press("Enter");
    await expect(card).toHaveCount(0);
    await expect.poll(async () => (await cells()).length).toBeGreaterThan(1);
    expect((await cells()).every((cell) => cell.startsWith(fret ?? "no fret"))).toBe(true);
    await steelIsHeard();
  });
  await rm(folder, { recursive: true, force: true });
});
