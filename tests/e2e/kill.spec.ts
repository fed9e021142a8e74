import { writeFile } from "node:fs/promises";
import path from "node:path";
import type { Page } from "@playwright/test";
import { encodeWav } from "@/lib/synth/encodeWav";
import { renderDemoRecord } from "@/prisma/demo/renderDemo";
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
import { newDataFolder, type RunningServer, removeDataFolder, startServer } from "./server";

const PERSON = { name: "Ruthie", email: "ruthie@example.com", password: "eleven strings" };

async function signUp(page: Page, { url }: RunningServer): Promise<void> {
  await page.goto(`${url}/sign-up`);
  await page.getByLabel(/^Name/).fill(PERSON.name);
  await page.getByLabel("E-mail").fill(PERSON.email);
  await page.getByLabel(/^Password/).fill(PERSON.password);
  await page.getByRole("button", { name: "Sign up" }).click();
  await page.waitForURL("**/books");
}

async function signIn(page: Page, { url }: RunningServer): Promise<void> {
  await page.goto(`${url}/sign-in`);
  await page.getByLabel("E-mail").fill(PERSON.email);
  await page.getByLabel("Password").fill(PERSON.password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL("**/books");
}

const WIDE = { viewport: { width: 1440, height: 900 } };

test("what was saved is there after the server is killed without warning", async ({ browser }) => {
  test.setTimeout(300_000);
  const folder = await newDataFolder();
  let server = await startServer(folder);
  const page = await (await browser.newContext({ baseURL: server.url, ...WIDE })).newPage();
  try {
    await signUp(page, server);
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
    const before = await changesOf(page).allTextContents();
    expect(before.filter((words) => words.includes("inked by you"))).toHaveLength(2);

    await server.kill();
    server = await startServer(folder);
    // Another browser, so that nothing can come from what this one keeps for itself.
    const fresh = await (await browser.newContext(WIDE)).newPage();
    await signIn(fresh, server);
    await fresh.goto(server.url + songUrl.pathname);
    await waitForPencil(fresh);
    await expect(changesOf(fresh)).toHaveText(before);
    await fresh.context().close();
  } finally {
    await page.context().close();
    await server.stop();
    await removeDataFolder(folder);
  }
});

test("a song that was being heard when the server was killed is heard after all", async ({ browser }) => {
  test.setTimeout(300_000);
  const folder = await newDataFolder();
  let server = await startServer(folder);
  const page = await (await browser.newContext({ baseURL: server.url, ...WIDE })).newPage();
  try {
    await signUp(page, server);
    await makeBook(page, "Interrupted");
    // Long enough to be caught in the act: the demo's record, six times over.
    const { channels, sampleRateHz } = renderDemoRecord();
    const long = channels.map((channel) => {
      const sixfold = new Float32Array(channel.length * 6);
      for (let turn = 0; turn < 6; turn += 1) sixfold.set(channel, turn * channel.length);
      return sixfold;
    });
    const file = path.join(folder, "six-times.wav");
    await writeFile(file, encodeWav(long, sampleRateHz));
    const songUrl = new URL(await addAndOpen(page, file));
    await expect(page.getByRole("region", { name: "Hearing" })).toContainText(
      /Hearing beats|Hearing tuning/i,
      {
        timeout: 60_000,
      },
    );
    await server.kill();

    server = await startServer(folder);
    const fresh = await (await browser.newContext(WIDE)).newPage();
    await signIn(fresh, server);
    await fresh.goto(server.url + songUrl.pathname);
    await waitForPencil(fresh);
    // Only what is in view is drawn.
    expect(await changesOf(fresh).count()).toBeGreaterThan(4);
    await fresh.context().close();
  } finally {
    await page.context().close();
    await server.stop();
    await removeDataFolder(folder);
  }
});
