import {
  addAndOpen,
  changesOf,
  expect,
  makeBook,
  test,
  testRecording,
  waitForPencil,
  waitForSaved,
} from "./liftbook";
import { newDataFolder, removeDataFolder, startServer } from "./server";

test("what was saved is there after the server is killed without warning", async ({ browser }) => {
  test.setTimeout(300_000);
  const folder = await newDataFolder();
  let server = await startServer(folder);
  const context = await browser.newContext({ baseURL: server.url, viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  try {
    await page.goto(`${server.url}/sign-up`);
    await page.getByLabel(/^Name/).fill("Ruthie");
    await page.getByLabel("E-mail").fill("ruthie@example.com");
    await page.getByLabel(/^Password/).fill("eleven strings");
    await page.getByRole("button", { name: "Sign up" }).click();
    await page.waitForURL("**/books");
    await makeBook(page, "Kept");
    const songUrl = new URL(await addAndOpen(page, testRecording()));
    await waitForPencil(page);
    await changesOf(page).nth(1).click();
    await page.keyboard.press("Enter");
    await expect(changesOf(page).nth(1)).toHaveAccessibleName(/inked by you/);
    await changesOf(page).nth(2).click();
    await page.keyboard.press("5");
    await page.keyboard.press("Enter");
    await expect(changesOf(page).nth(2)).toHaveAccessibleName(/^5, .*inked by you/);
    await waitForSaved(page);
    const before = await changesOf(page).evaluateAll((boxes) =>
      boxes.map((box) => box.getAttribute("aria-label")),
    );

    await server.kill();
    // Another browser, so that nothing can come from what this one keeps for itself.
    const elsewhere = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    server = await startServer(folder);
    expect(server.printed()).not.toMatch(/already running/);
    const fresh = await elsewhere.newPage();
    await fresh.goto(`${server.url}/sign-in`);
    await fresh.getByLabel("E-mail").fill("ruthie@example.com");
    await fresh.getByLabel("Password").fill("eleven strings");
    await fresh.getByRole("button", { name: "Sign in" }).click();
    await fresh.waitForURL("**/books");
    await fresh.goto(server.url + songUrl.pathname);
    await waitForPencil(fresh);
    const after = await changesOf(fresh).evaluateAll((boxes) =>
      boxes.map((box) => box.getAttribute("aria-label")),
    );
    expect(after).toEqual(before);
    await elsewhere.close();
  } finally {
    await context.close();
    await server.stop();
    await removeDataFolder(folder);
  }
});
