import { type CDPSession, expect, type Page } from "@playwright/test";
import { changesOf } from "../liftbook";
import type { SongReplica } from "./SongReplica";

/** What changes in two songs apart, so that a poll waits for it. */
const isOther = (replica: SongReplica, before: string) => async () => replica.text() !== before;
const isSame = (replica: SongReplica, before: string) => async () => replica.text() === before;

async function touch(
  meters: CDPSession,
  type: "touchStart" | "touchMove" | "touchEnd",
  at?: { x: number; y: number },
): Promise<void> {
  await meters.send("Input.dispatchTouchEvent", { type, touchPoints: at ? [at] : [] });
}

/**
 * On a phone: a change is selected, inked, taken back, looped and let go, the record is played, an event of the part is held,
 * stretched by its end and rubbed out. Pinching, scrolling and selecting a stretch are tried in lanes.spec, events that are
 * drawn along in partEditor.spec, notes that are heard at once in passageAtOnce.spec.
 * @param page of a device with a touch screen, on a song with events in its part
 */
export async function tryByFingers(page: Page, replica: SongReplica): Promise<void> {
  const meters = await page.context().newCDPSession(page);
  const inHand = page.getByRole("region", { name: "In hand" });
  const transport = page.getByRole("region", { name: "Transport" });
  const button = (name: string, within = inHand) => within.getByRole("button", { name, exact: true });
  const before = replica.text();

  await changesOf(page).nth(1).tap();
  await button("Ink it").tap();
  await expect.poll(isOther(replica, before)).toBe(true);
  await button("Undo", transport).tap();
  await expect.poll(isSame(replica, before)).toBe(true);

  await button("Loop it").tap();
  await expect(button("Stop looping")).toBeVisible();
  await button("Stop looping").tap();
  await button("Pause", transport).tap();
  await button("Play", transport).tap();
  await button("Pause", transport).tap();
  await button("Select nothing").tap();
  await expect(inHand).toHaveCount(0);

  // So that a beat has room for the handle at an event's end.
  for (let press = 0; press < 2; press += 1) await button("Zoom in", transport).tap();
  const part = page.getByRole("region", { name: "Part", exact: true });
  await part.evaluate((lane) => lane.scrollIntoView({ block: "center" }));
  // The last one: no other begins where it ends.
  const cell = (await part.locator("text").last().boundingBox())!;
  const at = { x: cell.x + 4, y: cell.y + cell.height / 2 };
  await touch(meters, "touchStart", at);
  const bar = page.getByRole("region", { name: "Chosen events" });
  await expect(bar).toBeVisible();
  await touch(meters, "touchEnd");
  // The lanes give way to the bar.
  await part.evaluate((lane) => lane.scrollIntoView({ block: "center" }));
  const end = (await part.locator('rect[class*="handle"]').first().boundingBox())!;
  const from = { x: end.x + end.width / 2, y: end.y + end.height / 2 };
  await touch(meters, "touchStart", from);
  for (let step = 1; step <= 4; step += 1)
    await touch(meters, "touchMove", { x: from.x + 12 * step, y: from.y });
  await touch(meters, "touchEnd");
  await expect.poll(isOther(replica, before)).toBe(true);
  await button("Undo", transport).tap();
  await expect.poll(isSame(replica, before)).toBe(true);
  await button("Rub out", bar).tap();
  await expect.poll(isOther(replica, before)).toBe(true);
  await button("Undo", transport).tap();
  await expect.poll(isSame(replica, before)).toBe(true);
}
