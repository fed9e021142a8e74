import { existsSync } from "node:fs";
import path from "node:path";
import { type BrowserContext, test as base, expect, type Locator, type Page } from "@playwright/test";
import { BROWSER_SWITCHES, findBrowser } from "./browser";
import { newDataFolder, type RunningServer, removeDataFolder, startServer } from "./server";

/** A person of the tests, signed up and in, with a browser context of their own. */
export interface Visitor {
  name: string;
  email: string;
  password: string;
  context: BrowserContext;
  page: Page;
}

interface WorkerFixtures {
  server: RunningServer;
}
interface TestFixtures {
  /** Whether newcomers have left the first walk round the song page. */
  hasWalked: boolean;
  /** Signs a new person up in a context of their own. */
  newcomer: (name: string) => Promise<Visitor>;
}

let count = 0;

/** Playwright's `test` with a Liftbook of its own a worker and people to use it. */
export const test = base.extend<TestFixtures, WorkerFixtures>({
  // Playwright's own browser is never downloaded: one of the system, or one from an npm package.
  browser: [
    async ({ playwright }, use) => {
      const browser = await playwright.chromium.launch({
        executablePath: await findBrowser(),
        args: BROWSER_SWITCHES,
      });
      await use(browser);
      await browser.close();
    },
    { scope: "worker", timeout: 60_000 },
  ],
  server: [
    async ({ playwright: _ }, use) => {
      const folder = await newDataFolder();
      const server = await startServer(folder);
      await use(server);
      const code = await server.stop();
      await removeDataFolder(folder);
      expect(code, "the server stops cleanly").toBe(0);
    },
    { scope: "worker", timeout: 300_000 },
  ],
  hasWalked: [true, { option: true }],
  newcomer: async ({ browser, server, serviceWorkers, hasWalked }, use) => {
    const contexts: BrowserContext[] = [];
    await use(async (name) => {
      const context = await browser.newContext({
        baseURL: server.url,
        viewport: { width: 1440, height: 900 },
        // Requests that a service worker makes cannot be answered by a test; who tries it lets it in.
        serviceWorkers,
        acceptDownloads: true,
      });
      contexts.push(context);
      if (hasWalked) await context.addInitScript(leaveWalks);
      const page = await context.newPage();
      count += 1;
      const visitor: Visitor = {
        name,
        email: `visitor-${process.pid}-${count}@example.com`,
        password: `ten strings ${count}`,
        context,
        page,
      };
      await signUp(page, visitor);
      return visitor;
    });
    for (const context of contexts) await context.close();
  },
});

export { expect };

/** Runs in each page before its own scripts: whoever it is, they have left the first walk (lib/client/walk). */
export function leaveWalks(): void {
  const read = Storage.prototype.getItem;
  Storage.prototype.getItem = function (key) {
    return key.startsWith("liftbook.walk.") ? "left" : read.call(this, key);
  };
}

/** A real recording with known changes where the annotated set is at hand, else one of the repo's own. */
export function testRecording(): string {
  const folder = process.env.LIFTBOOK_EVAL ?? path.resolve("../shared/eval");
  const real = path.join(folder, "audio/ds-04.ogg");
  if (existsSync(real)) return real;
  return path.resolve("tests/fixtures/quality/own-4.ogg");
}

/** Signs a new person up, and in. */
export async function signUp(
  page: Page,
  { name, email, password }: Pick<Visitor, "name" | "email" | "password">,
): Promise<void> {
  await page.goto("/sign-up");
  await page.getByLabel(/^Name/).fill(name);
  await page.getByLabel("E-mail").fill(email);
  await page.getByLabel(/^Password/).fill(password);
  await page.getByRole("button", { name: "Sign up" }).click();
  await page.waitForURL("**/books");
}

/** Makes a book from the books page and stays on its page. Returns its address. */
export async function makeBook(page: Page, title: string): Promise<string> {
  await page.goto("/books");
  await page.getByLabel("Title of a new book").fill(title);
  await page.getByRole("button", { name: "Make the book" }).click();
  await page.waitForURL("**/books/*");
  await expect(page.getByRole("heading", { name: title })).toBeVisible();
  return page.url();
}

/** Makes a copedent of one's own from the first preset and stays on its page. Returns its address. */
export async function makeCopedent(page: Page, name: string): Promise<string> {
  await page.goto("/copedents");
  await page.getByLabel("Its name").fill(name);
  await page.getByRole("button", { name: "Make it" }).click();
  await page.waitForURL(/\/copedents\/[\w-]{20}$/);
  await expect(page.getByRole("status").filter({ hasText: /^Saved$/ })).toBeVisible();
  return page.url();
}

/** Uploads a file on a book's page and opens its song. */
export async function addAndOpen(page: Page, file: string): Promise<string> {
  await page.getByLabel("Recording to add").setInputFiles(file);
  await page.getByRole("link", { name: path.parse(file).name }).click();
  await page.waitForURL("**/songs/*");
  return page.url();
}

/** The changes as the lane shows them, in order, by their spoken names. */
export function changesOf(page: Page) {
  return page.getByRole("region", { name: "Changes" }).locator("[data-change]");
}

/** The column that tells of what is selected. */
export function selectedOf(page: Page) {
  return page.getByRole("region", { name: "Selected" });
}

/** What kind of thing is selected, as its column is headed. */
export function headingOf(page: Page) {
  return selectedOf(page).getByRole("heading", { level: 2 });
}

/** The column of the steps of a passage. */
export function stepsOf(page: Page) {
  return page.getByRole("region", { name: "Passage" });
}

/** How many of the steel's notes stand in the song, as the steps say; 0 where there are none. */
export async function steelCount(page: Page): Promise<number> {
  const words = (await stepsOf(page).textContent()) ?? "";
  return Number(/\d+ of the steel's (\d+) in ink/.exec(words)?.[1] ?? 0);
}

/** The traces of heard notes that are drawn as one path. */
export function heardOf(page: Page, which: "pencil" | "band") {
  return page.getByRole("region", { name: "Heard" }).locator(`[data-notes="${which}"]`);
}

/** Where the first trace of a drawn path begins, on the screen. */
export async function startOf(drawnPath: Locator): Promise<{ x: number; y: number }> {
  return drawnPath.evaluate((drawn) => {
    if (!(drawn instanceof SVGPathElement)) throw new Error("no trace is drawn");
    const at = drawn.getPointAtLength(3).matrixTransform(drawn.getScreenCTM() ?? undefined);
    return { x: at.x, y: at.y };
  });
}

/** Selects a stretch of the record with the mouse, between two shares of the lane's width. */
export async function dragOverRecord(page: Page, from: number, to: number): Promise<void> {
  const record = (await page.getByRole("region", { name: "Record", exact: true }).boundingBox())!;
  const y = record.y + 30;
  await page.mouse.move(record.x + record.width * from, y);
  await page.mouse.down();
  await page.mouse.move(record.x + (record.width * (from + to)) / 2, y);
  await page.mouse.move(record.x + record.width * to, y);
  await page.mouse.up();
}

/** Takes the bass note under a change in hand, by keys. */
export async function toBassUnder(page: Page, change: number): Promise<void> {
  await changesOf(page).nth(change).click();
  await page.keyboard.press("ArrowDown");
  await expect(headingOf(page)).toHaveText("Bass note");
}

/** From nothing selected to the first heard note under a change, by keys alone. */
export async function toNoteUnder(page: Page, change: number): Promise<void> {
  await toBassUnder(page, change);
  await page.keyboard.press("ArrowDown");
  await expect(headingOf(page)).toHaveText("Heard note");
}

export async function waitForPencil(page: Page): Promise<void> {
  await expect(changesOf(page).first()).toBeVisible({ timeout: 120_000 });
}

export async function waitForSaved(page: Page): Promise<void> {
  await expect(page.getByRole("status").filter({ hasText: /^Saved$/ })).toBeVisible();
}

/** Lets a second person into the book by a link, and opens the song on their page. */
export async function inviteInto(
  maker: Visitor,
  guest: Visitor,
  bookUrl: string,
  role: "teacher" | "student" | "listener",
): Promise<void> {
  await maker.page.goto(bookUrl);
  await maker.page.getByRole("combobox", { name: /^As/ }).selectOption(role);
  await maker.page.getByRole("button", { name: "Make a link" }).click();
  const link = await maker.page.getByLabel("Link of the invitation").inputValue();
  await guest.page.goto(link);
  await guest.page.getByRole("button", { name: "Join the book" }).click();
  await guest.page.waitForURL("**/books/*");
}
