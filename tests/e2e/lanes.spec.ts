import type { CDPSession, Locator, Page } from "@playwright/test";
import {
  addAndOpen,
  changesOf,
  expect,
  headingOf,
  makeBook,
  test,
  testRecording,
  waitForPencil,
} from "./liftbook";

interface Finger {
  x: number;
  y: number;
}

/** Fingers on the page, as the browser's own input gives them. */
async function touch(
  meters: CDPSession,
  type: "touchStart" | "touchMove" | "touchEnd",
  fingers: readonly Finger[],
): Promise<void> {
  const touchPoints = fingers.map(({ x, y }, id) => ({ x, y, id }));
  await meters.send("Input.dispatchTouchEvent", { type, touchPoints });
}

/** The change that is drawn over a place on the screen, to be found again wherever it goes. */
async function changeAt(page: Page, x: number): Promise<Locator> {
  for (const change of await changesOf(page).all()) {
    const box = (await change.boundingBox())!;
    if (box.x <= x && x <= box.x + box.width)
      return page.locator(`[data-change="${await change.getAttribute("data-change")}"]`);
  }
  throw new Error(`no change is drawn at ${x} px`);
}

const laneOf = (page: Page, name: string) => page.getByRole("region", { name, exact: true });
const foldOf = (page: Page, name: string) => page.getByRole("button", { name: `${name} lane` });

test("lanes fold, count and follow fingers as one likes, and nothing stays behind when the page is left", async ({
  newcomer,
}) => {
  const { page, context } = await newcomer("Wynn");
  const bookUrl = await makeBook(page, "Long songs");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const meters = await context.newCDPSession(page);
  const drawnPixels = (canvas: HTMLCanvasElement) =>
    canvas
      .getContext("2d")!
      .getImageData(0, 0, canvas.width, canvas.height)
      .data.filter((value) => value > 0).length;
  const whole = page.getByRole("img", { name: "The whole song" }).locator("canvas").first();
  await expect.poll(() => whole.evaluate(drawnPixels)).toBeGreaterThan(1000);

  await test.step("a folded lane keeps its name alone, also the next time, and opens for what is taken in hand", async () => {
    const open = (await laneOf(page, "Part").boundingBox())!.height;
    for (const name of ["Record", "Part"]) await foldOf(page, name).click();
    await expect(foldOf(page, "Part")).toHaveAttribute("aria-expanded", "false");
    expect((await laneOf(page, "Part").boundingBox())!.height).toBeLessThan(open / 3);
    await page.reload();
    await waitForPencil(page);
    await expect(foldOf(page, "Record")).toHaveAttribute("aria-expanded", "false");
    await page.keyboard.press("p");
    await expect(foldOf(page, "Part")).toHaveAttribute("aria-expanded", "true");
    await foldOf(page, "Record").press("Enter");
    await expect(laneOf(page, "Record").locator("canvas")).toBeVisible();
  });

  await test.step("the ruler counts in bars, seconds or both", async () => {
    const counts = page.getByRole("button", { name: "The ruler counts in" });
    await expect(laneOf(page, "Bars")).toBeVisible();
    await counts.click();
    await expect(laneOf(page, "Seconds")).toContainText("0:01");
    await expect(laneOf(page, "Bars")).toHaveCount(0);
    await counts.click();
    await expect(laneOf(page, "Bars")).toBeVisible();
    await expect(laneOf(page, "Seconds")).toBeVisible();
  });

  await test.step("a selection drawn to the edge takes the lanes along, and Escape gives it up", async () => {
    await page.keyboard.press("Escape");
    const record = (await laneOf(page, "Record").boundingBox())!;
    const y = record.y + 40;
    const change = await changeAt(page, record.x + 500);
    const before = (await change.boundingBox())!.x;
    await page.mouse.move(record.x + 600, y);
    await page.mouse.down();
    await page.mouse.move(record.x + 700, y);
    await page.mouse.move(record.x + record.width - 1, y);
    await expect.poll(async () => (await change.boundingBox())?.x ?? -1).toBeLessThan(before - 100);
    await expect(headingOf(page)).toHaveText("Selection");
    await page.keyboard.press("Escape");
    await page.mouse.up();
    await expect(headingOf(page)).toHaveText("Nothing selected");
  });

  await test.step("two fingers zoom and scroll, one that stays selects", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.keyboard.press("Escape");
    // The rulers stay as lanes scroll, and may lie over it.
    await laneOf(page, "Record").evaluate((lane) => lane.scrollIntoView({ block: "center" }));
    let y = (await laneOf(page, "Record").boundingBox())!.y + 40;
    const change = await changeAt(page, 180);
    const before = (await change.boundingBox())!;
    await touch(meters, "touchStart", [
      { x: 150, y },
      { x: 210, y },
    ]);
    for (let step = 1; step <= 6; step++)
      await touch(meters, "touchMove", [
        { x: 150 - 10 * step, y },
        { x: 210 + 10 * step, y },
      ]);
    await touch(meters, "touchEnd", []);
    // Three times as far apart.
    await expect.poll(async () => (await change.boundingBox())!.width / before.width).toBeGreaterThan(2);
    const zoomed = (await change.boundingBox())!;
    await touch(meters, "touchStart", [
      { x: 250, y },
      { x: 330, y },
    ]);
    for (let step = 1; step <= 6; step++)
      await touch(meters, "touchMove", [
        { x: 250 - 10 * step, y },
        { x: 330 - 10 * step, y },
      ]);
    await touch(meters, "touchEnd", []);
    await expect.poll(async () => (await change.boundingBox())!.x).toBeLessThan(zoomed.x - 40);
    expect((await change.boundingBox())!.width).toBeGreaterThan(0.9 * zoomed.width);

    // One finger over the changes drags the lanes along as anywhere, and a tap takes one in hand.
    await change.evaluate((box) => box.scrollIntoView({ block: "center" }));
    const far = (await change.boundingBox())!;
    const over = { x: 300, y: far.y + far.height / 2 };
    await touch(meters, "touchStart", [over]);
    for (let step = 1; step <= 6; step++)
      await touch(meters, "touchMove", [{ x: over.x - 10 * step, y: over.y }]);
    await touch(meters, "touchEnd", []);
    await expect.poll(async () => (await change.boundingBox())!.x).toBeLessThan(far.x - 40);
    await expect(page.getByRole("region", { name: "In hand" })).toHaveCount(0);
    // Sent together: a busy machine would make a long press of it, by the browser's own clock.
    await Promise.all([touch(meters, "touchStart", [over]), touch(meters, "touchEnd", [])]);
    await expect(page.getByRole("region", { name: "In hand" })).toContainText("Next");
    await page.keyboard.press("Escape");

    await laneOf(page, "Record").evaluate((lane) => lane.scrollIntoView({ block: "center" }));
    y = (await laneOf(page, "Record").boundingBox())!.y + 40;
    await touch(meters, "touchStart", [{ x: 200, y }]);
    await expect(page.getByRole("region", { name: "In hand" })).toBeVisible();
    await touch(meters, "touchEnd", []);
    await expect(page.getByRole("region", { name: "In hand" })).toContainText("Selection");
  });

  await test.step("the page entered and left leaves no nodes and no listeners behind", async () => {
    await page.setViewportSize({ width: 1440, height: 900 });
    const link = (url: string) => page.locator(`a[href="${new URL(url).pathname}"]`).first();
    const standing: { nodes: number; jsEventListeners: number }[] = [];
    await page.goto(bookUrl);
    for (let visit = 0; visit < 4; visit++) {
      await link(songUrl).click();
      await waitForPencil(page);
      await link(bookUrl).click();
      await link(songUrl).waitFor();
      for (let run = 0; run < 2; run++) await meters.send("HeapProfiler.collectGarbage");
      standing.push(await meters.send("Memory.getDOMCounters"));
    }
    // The first visits fill what is kept for good; a page that stayed would be some thousand nodes and hundreds of listeners.
    const [, second, , last] = standing;
    expect(last!.nodes - second!.nodes).toBeLessThan(500);
    expect(last!.jsEventListeners - second!.jsEventListeners).toBeLessThan(100);
  });
});
