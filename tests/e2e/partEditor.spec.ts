import type { CDPSession, Page } from "@playwright/test";
import { midiToHertz } from "@/lib/units/pitch";
import { addAndOpen, expect, makeBook, test, waitForPencil } from "./liftbook";
import { levelsAt, listenIn } from "./listenIn";

const SHORT_SONG = "tests/fixtures/quality/own-4.ogg";

const partOf = (page: Page) => page.getByRole("region", { name: "Part", exact: true });
const cellsOf = (page: Page) => partOf(page).locator("text").allTextContents();
const barOf = (page: Page) => page.getByRole("region", { name: "Chosen events" });

/** Where a cell of the part begins on the screen. */
async function cellAt(page: Page, index: number): Promise<{ x: number; y: number }> {
  const box = (await partOf(page).locator("text").nth(index).boundingBox())!;
  return { x: box.x + 3, y: box.y + box.height / 2 };
}

async function addFiddle(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Add a part" }).click();
  const sheet = page.getByRole("dialog", { name: "Parts of the song" });
  await sheet.getByLabel("Name", { exact: true }).fill("Fiddle");
  await sheet.getByLabel("Played on").selectOption("preset mandolin");
  await sheet.getByRole("button", { name: "Add it" }).click();
  await expect(page.getByRole("region", { name: "Fiddle" })).toHaveAttribute("aria-current", "true");
}

async function press(page: Page, ...keys: string[]): Promise<void> {
  for (const key of keys) await page.keyboard.press(key);
}

test("a lick is written, chosen, copied, moved and played otherwise from the keyboard alone", async ({
  newcomer,
}) => {
  const { page } = await newcomer("Keyla");
  await listenIn(page);
  await makeBook(page, "A lick by keys");
  await addAndOpen(page, SHORT_SONG);
  await waitForPencil(page);

  await test.step("frets, pedals, a tie and techniques, a half beat at a time", async () => {
    await press(page, "p", "|");
    await expect(page.getByLabel("Snap to")).toHaveValue("half");
    await press(page, "5", "~", "ArrowRight", "5", "a", ">", "ArrowRight", "5", "<", "'");
    await expect.poll(() => cellsOf(page)).toEqual(["5~", expect.stringMatching(/^5A?$/), "(5')"]);
  });

  await test.step("two are chosen and go a half step up, as one step", async () => {
    await press(page, "Shift+ArrowLeft");
    await expect(barOf(page)).toContainText("2 events");
    await press(page, "Alt+ArrowUp");
    await expect.poll(() => cellsOf(page)).toEqual(["5~", expect.stringMatching(/^6A?$/), "(6')"]);
    await press(page, "Control+z");
    await expect.poll(() => cellsOf(page)).toEqual(["5~", expect.stringMatching(/^5A?$/), "(5')"]);
  });

  await test.step("all are copied, as tab too, and pasted further on", async () => {
    await press(page, "Control+a");
    await expect(barOf(page)).toContainText("3 events");
    await press(page, "Control+c");
    await expect(page.getByText("3 events copied, as text tab too.")).toBeVisible();
    await press(page, "Escape", "ArrowRight", "ArrowRight", "ArrowRight", "ArrowRight", "Control+v");
    await expect(page.getByText("3 events pasted.")).toBeVisible();
    await expect.poll(() => cellsOf(page)).toHaveLength(6);
  });

  await test.step("they lie in another grip, sounding the same, and are rubbed out together", async () => {
    const before = await cellsOf(page);
    await press(page, "n");
    await expect(page.getByText(/^Place \d of \d/)).toBeVisible();
    expect(await cellsOf(page)).not.toEqual(before);
    await press(page, "Backspace");
    await expect.poll(() => cellsOf(page)).toHaveLength(3);
    await press(page, "Control+z");
    await expect.poll(() => cellsOf(page)).toHaveLength(6);
  });

  await test.step("a second part on another instrument is written in and folded, and taken back by undo", async () => {
    const before = await cellsOf(page);
    await addFiddle(page);
    const fiddle = page.getByRole("region", { name: "Fiddle" });
    await press(page, "7");
    await expect(fiddle.locator("text")).toHaveText(["7"]);
    expect(await cellsOf(page)).toEqual(before);
    await press(page, "Alt+PageUp");
    await expect(partOf(page)).toHaveAttribute("aria-current", "true");
    await press(page, "Backspace");
    await expect.poll(() => cellsOf(page)).not.toEqual(before);
    await expect(fiddle.locator("text")).toHaveText(["7"]);
    await press(page, "Control+z");
    await fiddle.getByRole("button", { name: "Fiddle lane" }).click();
    await expect(fiddle.locator("text")).toHaveCount(0);
    await press(page, "Control+z");
    await fiddle.getByRole("button", { name: "Fiddle lane" }).click();
    await expect(fiddle).toContainText("Nothing written yet");
    await press(page, "Control+z");
    await expect(fiddle).toHaveCount(0);
    expect(await cellsOf(page)).toEqual(before);
  });

  await test.step("both parts sound together, and events go from one to the other", async () => {
    const before = await cellsOf(page);
    await addFiddle(page);
    await press(page, "6");
    const hearIt = page.getByRole("region", { name: "Hear it" });
    await press(page, "Shift+Y");
    await expect(hearIt).toContainText("record left, Fiddle and the steel right");
    await hearIt.getByRole("button", { name: "Fiddle alone" }).click();
    await expect(hearIt).toContainText("record left, Fiddle right");
    await hearIt.getByRole("button", { name: "All together" }).click();
    await press(page, "y", "Escape", "Home");
    await expect(hearIt).toContainText("Fiddle and the steel, in the record's time");
    const transport = page.getByRole("region", { name: "Transport" });
    await transport.getByRole("button", { name: "Play", exact: true }).click();
    // Fret 6 on a mandolin's A, and fret 5 on the steel's string 5, a B: no partial of the one is near one of the other's.
    const pitchesHz = [midiToHertz(75), midiToHertz(64)];
    let loudest = pitchesHz.map(() => Number.NEGATIVE_INFINITY);
    await expect
      .poll(async () => {
        const now = await levelsAt(page, pitchesHz);
        loudest = loudest.map((level, at) => Math.max(level, now[at]!));
        return Math.min(...loudest);
      })
      .toBeGreaterThan(-70);
    await transport.getByRole("button", { name: "Pause" }).click();
    await press(page, "Alt+PageUp", "Control+a", "Alt+Shift+PageDown");
    await expect(page.getByText(/^\d events moved to Fiddle\./)).toBeVisible();
    await expect.poll(async () => (await cellsOf(page)).length).toBeLessThan(before.length);
    await press(page, "Control+z");
    await expect.poll(() => cellsOf(page)).toEqual(before);
    await press(page, "Control+a");
    await barOf(page).getByRole("button", { name: "Move them to Fiddle" }).click();
    await expect.poll(async () => (await cellsOf(page)).length).toBeLessThan(before.length);
    await press(page, "Control+z");
    await expect.poll(() => cellsOf(page)).toEqual(before);
  });
});

/** A finger on the page, as the browser's own input gives it. */
async function touch(
  meters: CDPSession,
  type: "touchStart" | "touchMove" | "touchEnd",
  at?: { x: number; y: number },
): Promise<void> {
  await meters.send("Input.dispatchTouchEvent", { type, touchPoints: at ? [at] : [] });
}

test("events are moved, stretched and boxed by mouse, and held and moved by a finger", async ({
  newcomer,
}) => {
  const { page, context } = await newcomer("Manus");
  await makeBook(page, "A lick by hand");
  await addAndOpen(page, SHORT_SONG);
  await waitForPencil(page);
  await press(page, "p", "ArrowRight", "ArrowRight", "ArrowRight", "5", "ArrowRight", "7", "ArrowRight");
  await expect.poll(() => cellsOf(page)).toEqual(["5", "7"]);

  const drag = async (from: { x: number; y: number }, to: { x: number; y: number }) => {
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2);
    await page.mouse.move(to.x, to.y);
    await page.mouse.up();
  };
  const [first, second] = [await cellAt(page, 0), await cellAt(page, 1)];
  const beatPx = second.x - first.x;

  await test.step("a cell is drawn a beat on, and lands on the beat", async () => {
    await drag(second, { x: second.x + 1.2 * beatPx, y: second.y });
    // Beats are as long as the band plays them.
    await expect
      .poll(async () => Math.abs((await cellAt(page, 1)).x - second.x - beatPx))
      .toBeLessThan(0.1 * beatPx);
  });

  await test.step("a cell is drawn a string down and sounds the same there, in one step; Escape gives a drag up", async () => {
    // The bench grows with what it finds, and the lanes give way to it.
    await page.getByText("ease of reach").first().waitFor();
    const from = await cellAt(page, 0);
    const below = { x: from.x, y: from.y + 20 };
    // String 5 at fret 5 is the E that string 6 has at fret 8.
    await drag(from, below);
    await expect.poll(() => cellsOf(page)).toEqual(["8", "7"]);
    await expect(page.getByText("On string 6, fret 8: the same note.")).toBeVisible();
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => cellsOf(page)).toEqual(["5", "7"]);
    const again = await cellAt(page, 0);
    await page.mouse.move(again.x, again.y);
    await page.mouse.down();
    await page.mouse.move(again.x, again.y + 20);
    await expect.poll(() => cellsOf(page)).toEqual(["8", "7"]);
    await press(page, "Escape");
    await page.mouse.up();
    await expect.poll(() => cellsOf(page)).toEqual(["5", "7"]);
  });

  await test.step("a box chooses both, and the bar's buttons change both at once", async () => {
    const { y } = await cellAt(page, 0);
    await drag({ x: first.x - 0.4 * beatPx, y: y - 30 }, { x: second.x + 1.6 * beatPx, y: y + 30 });
    await expect(barOf(page)).toContainText("2 events");
    await barOf(page).getByRole("button", { name: "An octave up" }).click();
    await expect.poll(() => cellsOf(page)).toEqual(["17", "19"]);
    await barOf(page).getByRole("button", { name: "Vibrato" }).click();
    await expect.poll(() => cellsOf(page)).toEqual(["17~", "19~"]);
    await page.getByRole("button", { name: "Undo" }).click();
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => cellsOf(page)).toEqual(["5", "7"]);
  });

  await test.step("on a phone a finger that stays takes hold of a cell, and draws it along", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await press(page, "Escape", "Escape", "p");
    const meters = await context.newCDPSession(page);
    const at = await cellAt(page, 0);
    await touch(meters, "touchStart", at);
    await expect(barOf(page)).toContainText("1 event");
    for (let step = 1; step <= 4; step++) await touch(meters, "touchMove", { x: at.x + 12 * step, y: at.y });
    await touch(meters, "touchEnd");
    await expect.poll(async () => (await cellAt(page, 0)).x).toBeGreaterThan(at.x + 20);
    const target = (await barOf(page).getByRole("button", { name: "Copy" }).boundingBox())!;
    expect(target.height).toBeGreaterThanOrEqual(44);
    await barOf(page).getByRole("button", { name: "Done" }).click();
    await expect(barOf(page)).toHaveCount(0);
  });
  await expect(page.getByRole("region", { name: "In hand" })).toContainText("fret 5");
});
