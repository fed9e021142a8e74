import type { Page } from "@playwright/test";
import {
  addAndOpen,
  changesOf,
  expect,
  headingOf,
  makeBook,
  test,
  testRecording,
  waitForPencil,
  waitForSaved,
} from "./liftbook";

test.use({ serviceWorkers: "allow" });

/** Names of all caches that hold a person's songs. */
function personsCaches(page: Page): Promise<string[]> {
  return page.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith("liftbook-kept/")));
}

test("a song that was open opens again offline with its recording, and what is written then goes across", async ({
  newcomer,
}) => {
  const { page, context } = await newcomer("Linnet");
  await makeBook(page, "Far from town");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  await waitForSaved(page);
  const recordPath = `${new URL(songUrl).pathname.replace("/songs/", "/api/songs/")}/record`;
  const app = await page.request.get("/manifest.webmanifest");
  const { icons, start_url }: { icons: { src: string; type: string }[]; start_url: string } =
    await app.json();
  expect(start_url).toBe("/books");
  for (const { src, type } of icons) {
    const icon = await page.request.get(src);
    expect([icon.status(), icon.headers()["content-type"]], src).toEqual([200, type]);
  }
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.waitForFunction(async (path) => (await caches.match(path)) !== undefined, recordPath);

  await context.setOffline(true);
  await page.reload();
  await waitForPencil(page);
  await expect(page.getByText("This song and its recording are kept in this browser")).toBeVisible();
  const part = await page.evaluate(async (path) => {
    const answer = await fetch(path, { headers: { range: "bytes=100-199" } });
    return { status: answer.status, length: (await answer.arrayBuffer()).byteLength };
  }, recordPath);
  expect(part).toEqual({ status: 206, length: 100 });
  await changesOf(page).first().click();
  await expect(headingOf(page)).toHaveText("Change");
  await page.keyboard.press("Enter");
  await expect(changesOf(page).first()).toHaveAccessibleName(/inked by/);

  await page.goto("/books");
  await expect(page.getByRole("heading", { name: "The server is not reached" })).toBeVisible();
  await page.getByRole("listitem").getByRole("link").click();
  await expect(changesOf(page).first()).toHaveAccessibleName(/inked by/);

  await context.setOffline(false);
  await waitForSaved(page);
  await page.reload();
  await expect(changesOf(page).first()).toHaveAccessibleName(/inked by/);
  // Workers of the page start behind the service worker too.
  await changesOf(page).nth(1).click();
  await expect(page.getByText(/^(Fits|May fit|Does not fit)/)).toBeVisible();

  expect(await personsCaches(page)).toHaveLength(1);
  await page.goto("/books");
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.waitForURL(/\/(sign-in.*)?$/);
  expect(await personsCaches(page)).toEqual([]);
  await context.setOffline(true);
  await page.goto(songUrl);
  await expect(page.getByText("No song is kept yet.")).toBeVisible();
});
