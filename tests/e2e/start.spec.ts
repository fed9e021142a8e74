import { spawnSync } from "node:child_process";
import { changesOf, expect, test, waitForPencil } from "./liftbook";
import { newDataFolder, removeDataFolder, startServer } from "./server";

test("a fresh start seeds a demo that the machine really hears, refuses a second start, and stops cleanly", async ({
  browser,
}) => {
  test.setTimeout(300_000);
  const folder = await newDataFolder();
  const server = await startServer(folder, { LIFTBOOK_DEMO: "auto" });
  try {
    await expect.poll(() => server.printed()).toMatch(/Ctrl-C/);
    const people = [...server.printed().matchAll(/^\s*(.+): (\S+@\S+)\s+password (\S.*)$/gm)];
    expect(people).toHaveLength(2);
    const [, , email, password] = people[0]!;

    const second = spawnSync(process.execPath, ["--import", "tsx", "lib/cli/start.ts"], {
      env: { ...process.env, LIFTBOOK_DATA: folder, PORT: "0" },
      encoding: "utf8",
      timeout: 60_000,
    });
    expect(second.status).toBe(1);
    expect(second.stderr).toMatch(/already running/);
    expect(second.stderr).toContain(server.url);

    const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
    await page.goto(`${server.url}/sign-in`);
    await page.getByLabel("E-mail").fill(email!);
    await page.getByLabel("Password").fill(password!);
    await page.getByRole("button", { name: "Sign in" }).click();
    await page.waitForURL("**/books");
    await page.getByRole("main").getByRole("link").first().click();
    await page.waitForURL("**/books/*");
    await page.getByRole("main").getByRole("listitem").getByRole("link").first().click();
    await page.waitForURL("**/songs/*");
    await waitForPencil(page);
    expect(await changesOf(page).count()).toBeGreaterThan(4);
    await page.context().close();
  } finally {
    expect(await server.stop()).toBe(0);
    await removeDataFolder(folder);
  }
});

test("a setting that cannot be is named at the start", () => {
  const wrong = spawnSync(process.execPath, ["--import", "tsx", "lib/cli/start.ts"], {
    env: { ...process.env, PORT: "a door" },
    encoding: "utf8",
    timeout: 60_000,
  });
  expect(wrong.status).toBe(1);
  expect(wrong.stderr).toContain("PORT");
});
