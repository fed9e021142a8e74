import { pages } from "@/lib/contracts/api";
import type { BenchPage, Standing } from "./BenchPage";
import type { Served } from "./serve";

/** How often memory is read while the record loops. */
const READ_EVERY_MS = 10_000;
const LOOP_SEC = 4;

/** Loops a few seconds of the song for some minutes. @returns what stood in memory, in even steps */
export async function readLooping(bench: BenchPage, minutes: number): Promise<Standing[]> {
  const { page } = bench;
  await page.locator("[data-change]").nth(1).click();
  await page.keyboard.press("l");
  await page.keyboard.press("Space");
  await page.waitForTimeout(LOOP_SEC * 1_000);
  const readings = [await bench.standing()];
  const endMs = Date.now() + minutes * 60_000;
  while (Date.now() < endMs) {
    await page.waitForTimeout(READ_EVERY_MS);
    readings.push(await bench.standing());
  }
  await page.keyboard.press("Space");
  return readings;
}

export const READINGS_A_MINUTE = 60_000 / READ_EVERY_MS;

/** The page of a song entered from its book and left again, with a few seconds played: what stood in memory after each visit. */
export async function readVisits(
  bench: BenchPage,
  { bookId }: Served,
  songId: string,
  visits: number,
): Promise<Standing[]> {
  const { page } = bench;
  const readings: Standing[] = [];
  await page.goto(pages.book(bookId));
  for (let visit = 0; visit < visits; visit++) {
    await page
      .locator(`a[href="${pages.song(songId)}"]`)
      .first()
      .click();
    await bench.untilDrawn();
    await page.locator("[data-change]").nth(2).click();
    await page.keyboard.press("Space");
    await page.waitForTimeout(1_000);
    await page.keyboard.press("Space");
    await page
      .locator(`a[href="${pages.book(bookId)}"]`)
      .first()
      .click();
    await page
      .locator(`a[href="${pages.song(songId)}"]`)
      .first()
      .waitFor();
    await page.waitForTimeout(1_000);
    readings.push(await bench.standing());
  }
  return readings;
}
